import { describe, expect, test } from "vitest";
import type { Capture } from "../../src/capture/model/capture.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import { comparableOf } from "../../src/exhaust/comparing/comparable.ts";
import { ProblemError } from "../../src/problem.ts";
import type { Engine } from "../../workers/held/engine.ts";
import { sha256Of } from "../../workers/naming/sha256.ts";
import { createCaptureService } from "../../workers/service/capture-service.ts";
import { takenSummary } from "../../workers/service/taken-summary.ts";

const samples = Float64Array.of(0.1, 0.2, 0.8, 0.9, Number.NaN, 0.3);

/** Reads any file as one front sensor at 10 Hz; one that starts with "wait" is read only when cancelled, "huge" wants 8 TiB. */
const engine: Engine = {
  async read(source, _choices, report) {
    report.progress(source.size, source.size);
    const head = new TextDecoder().decode(await source.read(0, 4));
    if (head === "wait") await aborted(report.signal);
    if (head === "huge") new Float64Array(2 ** 40);
    return capture(source.name);
  },
  nameOf: ({ source }, signal) => sha256Of(source, signal),
  warningsOf: () => [],
  version: null,
  store: null,
  measure: notAskedFor,
  measureStored: notAskedFor,
  whole: notAskedFor,
  firstLook: notAskedFor,
  healthy: notAskedFor,
  comparable: notAskedFor,
};

function notAskedFor(): never {
  throw new RangeError("not asked for here");
}

function aborted(signal: AbortSignal): Promise<never> {
  return new Promise((_, reject) => {
    if (signal.aborted) reject(signal.reason);
    signal.addEventListener("abort", () => reject(signal.reason));
  });
}

function capture(name: string): Capture {
  const series = { time: { kind: "even" as const, start: 0, step: 0.1, count: samples.length }, samples };
  const labels = { role: "front-o2" as const, bank: 1 as const, unit: "V", fileUnit: "V", polled: false };
  return {
    name,
    format: "test",
    startedAt: null,
    remarks: [],
    channels: [{ id: "c1", name: "front", series, ...labels }],
  };
}

const request = (text: string) => ({ file: new Blob([text]), name: "a.csv", choices: {} });

async function opened(text = "abc") {
  const service = createCaptureService(engine);
  const outcome = await service.open(request(text), () => {});
  if (!outcome.ok) throw new Error(outcome.problem.what);
  return { service, summary: outcome.value };
}

describe("capture service", () => {
  test("says so where memory has no room, and goes on with what is open", async () => {
    const { service, summary } = await opened();
    const outcome = await service.open(request("huge"), () => {});
    expect(outcome).toMatchObject({ ok: false, problem: { code: "too-large" } });
    expect(await service.valuesAt(summary.take, ["c1"], 0.2)).toMatchObject([{ value: 0.8 }]);
  });

  test("asked again after storage was full, keeps the recording where there is room by now", async () => {
    const kept: string[] = [];
    let room = false;
    const store = {
      hold: async () => () => {},
      async keep({ id }: { id: string }) {
        if (!room) throw new ProblemError({ code: "storage-full", what: "full", remedy: "free some" });
        kept.push(id);
        return true;
      },
    };
    const service = createCaptureService({ ...engine, store: store as unknown as Engine["store"] });
    const outcome = await service.open(request("abc"), () => {});
    const { id } = outcome.ok ? outcome.value : { id: "" };
    expect(await service.kept(id)).toMatchObject({ code: "storage-full" });
    expect(await service.kept(id)).toMatchObject({ code: "storage-full" });
    room = true;
    expect(await service.kept(id)).toBeNull();
    expect(await service.kept(id)).toBeNull();
    expect(kept).toEqual([id]);
  });

  test("names a file that vanished while it was being kept, though what was read of it is kept", async () => {
    const store = { hold: async () => () => {}, keep: async () => false };
    const service = createCaptureService({ ...engine, store: store as unknown as Engine["store"] });
    const outcome = await service.open(request("abc"), () => {});
    if (!outcome.ok) throw new Error(outcome.problem.what);
    const { id, name } = outcome.value;
    expect(await service.kept(id)).toMatchObject({ code: "unreadable", where: name });
  });

  test("writes no recording into full storage again for the sake of an answer", async () => {
    let tried = 0;
    const answers: string[] = [];
    const store = {
      hold: async () => () => {},
      answer: async () => null,
      async keep() {
        tried++;
        throw new ProblemError({ code: "storage-full", what: "full", remedy: "free some" });
      },
      keepAnswer: async (id: string) => void answers.push(id),
    };
    const measuring: Engine = {
      ...engine,
      version: { sources: "a", shapes: "b" },
      store: store as unknown as Engine["store"],
      whole: async ({ bring, bank }, choices) => analyse(await bring(() => {}), { ...choices, bank }),
    };
    const service = createCaptureService(measuring);
    const outcome = await service.open(request("abc"), () => {});
    if (!outcome.ok) throw new Error(outcome.problem.what);
    const { id, take } = outcome.value;
    expect(await service.kept(id)).toMatchObject({ code: "storage-full" });
    expect((await service.whole({ take, choices: {} }, { urgency: "answer" })).ok).toBe(true);
    await new Promise((resolve) => setTimeout(resolve));
    expect([tried, answers]).toEqual([1, []]);
  });

  test("makes what is compared of the whole that is at hand, and only of one with the same choices", async () => {
    const given: unknown[] = [];
    const measuring: Engine = {
      ...engine,
      whole: async ({ bring, bank }, choices) => analyse(await bring(() => {}), { ...choices, bank }),
      async comparable({ bring, bank }, choices, _turn, known) {
        given.push(known);
        const measured = await bring(() => {});
        return comparableOf(measured, known ?? analyse(measured, { ...choices, bank }), choices.limits);
      },
    };
    const service = createCaptureService(measuring);
    const outcome = await service.open(request("abc"), () => {});
    if (!outcome.ok) throw new Error(outcome.problem.what);
    const { take } = outcome.value;
    const whole = await service.whole({ take, choices: {} }, { urgency: "answer" });
    await service.comparable({ take, choices: {} }, { urgency: "beside" });
    await service.comparable({ take, choices: { limits: { switchLevel: 0.5 } } }, { urgency: "beside" });
    expect(given).toEqual([whole.ok && whole.value, null]);
  });

  // FIPS 180-2, appendix B.1: the digest of "abc".
  test("names a capture by the SHA-256 of its bytes", async () => {
    const { summary } = await opened();
    expect(summary.id).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    expect(summary.span.from).toBe(0);
    expect(summary.span.to).toBeCloseTo(0.5, 5);
    expect(summary.channels[0]).toMatchObject({ samples: 6, range: [0.1, 0.9], rate: { value: 10 } });
  });

  test("says what is to be warned of when a file is opened", async () => {
    const warned = createCaptureService({ ...engine, warningsOf: (_, bank) => [{ text: `bank ${bank}` }] });
    const outcome = await warned.open({ ...request("abc"), choices: { bank: 2 } }, () => {});
    expect(outcome).toMatchObject({ ok: true, value: { warnings: [{ text: "bank 2" }] } });
  });

  test("a second open cancels the first, and what was open stays open", async () => {
    const { service, summary } = await opened();
    const slow = service.open(request("wait"), () => {});
    const quick = service.open(request("quick"), () => {});
    expect(await slow).toMatchObject({ ok: false, problem: { code: "cancelled" } });
    expect((await quick).ok).toBe(true);
    expect((await service.reopen(summary.id, {})).ok).toBe(true);
  });

  test("cancelOpen ends the read with a problem", async () => {
    const service = createCaptureService(engine);
    const slow = service.open(request("wait"), () => {});
    await service.cancelOpen();
    expect(await slow).toMatchObject({ ok: false, problem: { code: "cancelled" } });
  });

  test("values between samples are interpolated and say so; a gap has none", async () => {
    const { service, summary } = await opened();
    const at = async (time: number) => (await service.valuesAt(summary.take, ["c1"], time))[0];
    expect(await at(0.1)).toEqual({ channelId: "c1", value: 0.2, between: false });
    expect((await at(0.15))?.value).toBeCloseTo(0.5, 12);
    expect((await at(0.15))?.between).toBe(true);
    expect((await at(0.35))?.value).toBeNull();
    expect((await at(9))?.value).toBeNull();
  });

  test("a crossing is found on the line between its two samples, and bounded by them", async () => {
    const { service, summary } = await opened();
    const wish = { take: summary.take, channelIds: ["c1"], near: 0.12, within: 0.1, level: 0.45 };
    const snap = await service.snap({ ...wish, to: "crossing" });
    // (0.45 - 0.2) / (0.8 - 0.2) of the step from 0.1 s to 0.2 s.
    expect(snap?.time).toBeCloseTo(0.1 + (0.1 * 0.25) / 0.6, 12);
    expect(snap).toMatchObject({ channelId: "c1", low: 0.1, high: 0.2, value: 0.45 });
    expect(await service.snap({ ...wish, to: "crossing", level: 5 })).toBeNull();
    expect((await service.snap({ ...wish, to: "extreme", near: 0.29 }))?.value).toBe(0.9);
    expect((await service.snap({ ...wish, to: "sample" }))?.time).toBe(0.1);
  });

  test("a correction changes what is shown, not what was recorded", async () => {
    const { service, summary } = await opened();
    const swapped = { c1: { role: "rear-o2" as const, gain: -1, offset: 1 } };
    const { take, channels } = takenSummary(summary, { corrections: swapped, bank: 1 });
    expect(channels[0]).toMatchObject({ role: "rear-o2", range: [1 - 0.9, 0.9] });
    expect((await service.valuesAt(take, ["c1"], 0))[0]?.value).toBe(0.9);
    expect((await service.valuesAt(summary.take, ["c1"], 0))[0]?.value).toBe(0.1);
  });

  // RFC 4180: CRLF, an empty cell for a missing value.
  test("saves a span as delimited text, corrections applied", async () => {
    const { service, summary } = await opened();
    const take = { ...summary.take, corrections: { c1: { gain: 10, offset: 0 } } };
    const span = { from: 0.25, to: 0.6 };
    const saved = await service.saveSpan({ take, channelIds: ["c1"], span, format: "csv" });
    const text = saved.ok ? await saved.value.text() : "";
    expect(text.split("\r\n").map((row) => row.split(",")[1])).toEqual(["front [V]", "9", "", "3", undefined]);
  });

  test("a take that is read otherwise is not answered", async () => {
    const { service, summary } = await opened();
    const other = { ...summary.take, choices: { bank: 2 as const } };
    expect(await service.valuesAt(other, ["c1"], 0)).toEqual([]);
    const measured = await service.measure({ take: other, span: summary.span, limits: {} }, { urgency: "span" });
    expect(measured).toMatchObject({ ok: false, problem: { code: "unreadable" } });
  });

  test("warns of a take as it is corrected", async () => {
    const roles = createCaptureService({ ...engine, warningsOf: ({ channels }) => [{ text: channels[0]!.role }] });
    const outcome = await roles.open(request("abc"), () => {});
    const { take } = outcome.ok ? outcome.value : notAskedFor();
    const corrections = { c1: { role: "rear-o2" as const, gain: 1, offset: 0 } };
    expect(await roles.warnings(take)).toEqual([{ text: "front-o2" }]);
    expect(await roles.warnings({ ...take, corrections })).toEqual([{ text: "rear-o2" }]);
  });

  test("previews a file as it would be read, without keeping it", async () => {
    const { service } = await opened();
    const preview = await service.preview(new Blob(["time;front\n0,1;0,2\n0,2;0,3\n0,3;0,4\n"]), "b.csv", {});
    expect(preview.assumed).toMatchObject({ delimiter: ";", decimalMark: "," });
    expect(preview.rows[0]).toEqual([0, 0.2]);
  });

  test("a forgotten capture answers empty windows and a clear problem", async () => {
    const { service, summary } = await opened();
    await service.forget(summary.id);
    const span = { from: 0, to: 1 };
    expect(await service.window({ take: summary.take, channelIds: ["c1"], span, width: 100 })).toEqual([]);
    expect(await service.measure({ take: summary.take, span, limits: {} }, { urgency: "span" })).toMatchObject({
      ok: false,
      problem: { code: "unreadable" },
    });
  });
});

test("where the browser keeps nothing, no recording is called kept", async () => {
  const service = createCaptureService(engine);
  const outcome = await service.open(request("abc"), () => {});
  expect(outcome.ok && (await service.kept(outcome.value.id))).toMatchObject({ code: "storage-denied" });
});
