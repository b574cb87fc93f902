// A file larger than the room in memory goes into storage while it is read. The judge is the same file read into memory.

import { proxy } from "comlink";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { Take } from "../../src/capture/model/take.ts";
import type { Span } from "../../src/exhaust/terms/analysis.ts";
import type { Problem } from "../../src/problem.ts";
import type { ChannelSummary, ChannelWindow } from "../../workers/protocol.ts";
import { ofKinds } from "../share.ts";
import {
  corrected,
  gzipped,
  inTurn,
  large,
  layout,
  npy,
  open,
  raw,
  small,
  spoiled,
  text,
  usualRows,
  withHole,
} from "./larger-files.ts";
import { captureFolders, clearCaptures, type Playground, startPlayground } from "./playground.ts";

beforeEach(clearCaptures);
afterEach(clearCaptures);

interface Opened {
  readonly service: Playground;
  readonly take: Take;
  readonly channels: readonly ChannelSummary[];
}

/** All that the page asks of a capture. */
async function answers({ service, take, channels }: Opened) {
  const channelIds = channels.map((channel) => channel.id);
  const [from, to] = [channels[0]!.from, channels[0]!.to];
  const at = (share: number) => from + share * (to - from);
  const spans = {
    whole: { from: at(0), to: at(1) },
    part: { from: at(0.61), to: at(0.66) },
    close: { from: at(0.6333), to: at(0.6337) },
  };
  const window = (span: Span) => service.window({ take, channelIds, span, width: 500 });
  const near = at(0.633);
  return {
    at: spans,
    whole: await window(spans.whole),
    part: await window(spans.part),
    close: await window(spans.close),
    values: await service.valuesAt(take, channelIds, near),
    snap: await service.snap({ take, channelIds, near, within: 1, to: "crossing", level: 0.45 }),
    readings: await service.measure({ take, span: { from: at(0.62), to: at(0.64) }, limits: {} }, inTurn),
  };
}
type Answers = Awaited<ReturnType<typeof answers>>;

/** Drawn from blocks, a column may be an eighth of a pixel beside its place: samples of a neighbour may stand in it. */
function expectAlike(got: readonly ChannelWindow[], judge: readonly ChannelWindow[]): void {
  for (const [c, { channelId, values, times, dense }] of got.entries()) {
    const wanted = judge[c]!;
    expect(Math.abs(values.length - wanted.values.length)).toBeLessThan(8);
    const first = (all: ChannelWindow) => all.times[all.values.findIndex((v) => !Number.isNaN(v))];
    expect(first({ channelId, times, values, dense })).toBeCloseTo(first(wanted)!, 6);
    const present = (all: Float64Array) => [...all].filter((v) => !Number.isNaN(v)).sort((a, b) => a - b);
    const [mine, theirs] = [present(values), present(wanted.values)];
    expect([mine[0], mine.at(-1)]).toEqual([theirs[0], theirs.at(-1)]);
  }
}

/** Points well inside of the span: of samples beside it only some are at hand in storage. */
function inside({ times, values }: ChannelWindow, { from, to }: Span): (readonly [time: number, value: number])[] {
  const margin = (to - from) / 100;
  const all = Array.from(times, (time, i) => [time, values[i]!] as const);
  return all.filter(([time]) => time > from + margin && time < to - margin);
}

/** @param resolution  s */
function expectSame(got: Answers, judge: Answers, resolution: number): void {
  expectAlike(got.whole, judge.whole);
  // A stamp that is off by one digit may count in the next column: then only single samples can be compared.
  for (const which of resolution > 0 ? (["close"] as const) : (["part", "close"] as const)) {
    for (const [c, points] of got[which].entries()) {
      expect(points.dense).toBe(judge[which][c]!.dense);
      const [mine, theirs] = [inside(points, got.at[which]), inside(judge[which][c]!, got.at[which])];
      expect(mine.length).toBeGreaterThan(10);
      expect(mine.map(([, value]) => value)).toEqual(theirs.map(([, value]) => value));
      const apart = mine.map(([time], i) => Math.abs(time - theirs[i]![0]));
      expect(Math.max(...apart)).toBeLessThan(2.02 * resolution + 1e-9);
    }
  }
  const round = (found: unknown) =>
    JSON.parse(JSON.stringify(found), (_, v) =>
      typeof v === "number" ? Number(v.toPrecision(resolution > 0 ? 4 : 9)) : v,
    );
  expect(got.readings.ok).toBe(true);
  expect(round(got.values)).toEqual(round(judge.values));
  expect(round(got.snap)).toEqual(round(judge.snap));
  expect(round(got.readings)).toEqual(round(judge.readings));
}

describe("a file larger than the room in memory", { timeout: 60_000 }, () => {
  const kinds = [
    ["text with even stamps", () => text(), {}, 0],
    ["text with a hole", () => text({ stamp: withHole }), {}, 1e-6],
    [
      "text with uneven stamps",
      () => text({ stamp: (i) => ((i + 0.3 * Math.sin(i * i)) / 1000).toFixed(6) }),
      {},
      1e-6,
    ],
    ["text with stamps that repeat, step back, miss and start again", () => text({ stamp: spoiled }), {}, 1e-6],
    [
      "text with stamps that many rows share",
      () => text({ stamp: (i) => (Math.floor(i / 37) / 40).toFixed(3) }),
      {},
      1e-6,
    ],
    ["packed text", () => gzipped(), {}, 0],
    ["raw numbers", () => raw(), { layout }, 0],
    ["a NumPy array", () => npy(), { rate: 1000, roles: { "Column 1": "front-o2" } }, 0],
  ] as const;
  const short = ["text with stamps that repeat, step back, miss and start again", "a NumPy array"];
  test.each(ofKinds(short, kinds))(
    "of %s is the same as in memory, after a reload too",
    async (_, make, choices, resolution) => {
      const file = make();
      const judge = startPlayground();
      await judge.service.setRoom(large);
      const wanted = await open(judge.service, file, choices);
      const inMemory = await answers({ service: judge.service, ...wanted });
      await judge.service.kept(wanted.id);
      judge.worker.terminate();
      await clearCaptures();

      const first = startPlayground();
      await first.service.setRoom(small);
      const partials: number[] = [];
      const summary = await open(first.service, file, choices, (_done, _total, partial) => {
        if (partial) partials.push(partial.channels[0]!.samples);
      });
      // The last part may be shown both as a part and as the end.
      expect(new Set(partials).size).toBeGreaterThan(1);
      expect(partials).toEqual(partials.toSorted((a, b) => a - b));
      expect(withoutRates(summary)).toEqual(withoutRates(wanted));
      summary.channels.forEach(({ rate }, c) => {
        const judged = wanted.channels[c]!.rate;
        expect({ ...rate, value: 0, low: 0, high: 0 }).toEqual({ ...judged, value: 0, low: 0, high: 0 });
        for (const side of ["value", "low", "high"] as const)
          expect(rate[side]! / judged[side]! - 1).toBeCloseTo(0, resolution > 0 ? 5 : 12);
      });
      expectSame(await answers({ service: first.service, ...summary }), inMemory, resolution);
      expect(await first.service.reads()).toBeGreaterThan(0);
      const taken = { ...summary.take, corrections: corrected };
      expect(await first.service.warnings(taken)).toEqual(summary.warnings);
      expect(await first.service.kept(summary.id)).toBeNull();
      first.worker.terminate();

      const second = startPlayground();
      await second.service.setRoom(small);
      const again = await second.service.reopen(summary.id, choices);
      expect(again).toEqual({ ok: true, value: summary });
      expectSame(await answers({ service: second.service, ...summary }), inMemory, resolution);
      expect((await second.service.file(summary.id))?.size).toBe(file.size);
      expect(await captureFolders()).toEqual([summary.id]);
    },
  );

  test("is read again with other choices out of its kept file, under its name", async () => {
    const { service } = startPlayground();
    await service.setRoom(small);
    const { id } = await open(service, text());
    await service.kept(id);
    const next = startPlayground();
    await next.service.setRoom(small);
    const again = await next.service.reopen(id, { bank: 2 });
    expect(again).toMatchObject({ ok: true, value: { id, name: "a.csv" } });
    expect(await next.service.kept(id)).toBeNull();
    expect(await captureFolders()).toEqual([id]);
  });

  test("is kept without its file where there is no room for both, and says so when it is to be read again", async () => {
    const { service } = startPlayground();
    await service.setRoom(small);
    await service.refuse("narrow");
    const summary = await open(service, text());
    expect(await service.kept(summary.id)).toBeNull();
    const next = startPlayground();
    await next.service.setRoom(small);
    expect(await next.service.reopen(summary.id, {})).toEqual({ ok: true, value: summary });
    expect(await next.service.file(summary.id)).toBeNull();
    const refused = await next.service.reopen(summary.id, { bank: 2 });
    expect(refused).toMatchObject({ ok: false, problem: { code: "unreadable" } });
    expect(refused.ok || refused.problem.what).toMatch(/no room for its file/);
  });

  test("is read into memory where it cannot be read in parts", async () => {
    const { service } = startPlayground();
    await service.setRoom(small);
    const summary = await open(service, text({ stamp: (i) => ((usualRows - i) / 1000).toFixed(6) }));
    expect(summary.remarks.some((remark) => /late to early/.test(remark.text))).toBe(true);
    expect(summary.channels[0]!.samples).toBe(usualRows);
    expect(await service.kept(summary.id)).toBeNull();
    expect(await captureFolders()).toEqual([summary.id]);
  });

  test("leaves nothing when it is cancelled in the middle", async () => {
    const { service } = startPlayground();
    await service.setRoom(small);
    let cancelled = 0;
    let told = 0;
    const outcome = await service.open(
      { file: text({ rows: 450_000 }), name: "a.csv", choices: {} },
      proxy((_done, _total, partial) => {
        if (!partial || ++told < 2 || cancelled > 0) return;
        cancelled = performance.now();
        void service.cancelOpen();
      }),
    );
    expect(cancelled).toBeGreaterThan(0);
    expect(outcome).toMatchObject({ ok: false, problem: { code: "cancelled" } });
    await expect.poll(captureFolders).toEqual([]); // cleared up behind the answer
    expect(
      (
        await service.open(
          { file: text(), name: "b.csv", choices: {} },
          proxy(() => {}),
        )
      ).ok,
    ).toBe(true);
  });

  test.each([
    ["denied", "storage-denied"],
    ["full", "storage-full"],
  ] as const)("stays in memory with storage %s in the middle, and says so", async (storage, code) => {
    const { service } = startPlayground();
    await service.setRoom(small);
    if (storage === "denied") await service.refuse("denied");
    let isFull = false;
    const summary = await open(service, text(), {}, (_done, _total, partial) => {
      if (!partial || isFull || storage === "denied") return;
      isFull = true;
      void service.refuse("full");
    });
    expect(await service.kept(summary.id)).toMatchObject({ code } satisfies Partial<Problem>);
    const spot = { take: summary.take, channelIds: ["c2"], span: summary.span, width: 100 };
    expect((await service.window(spot))[0]!.times.length).toBeGreaterThan(100);
    const span = { from: 20, to: 40 };
    expect((await service.measure({ take: summary.take, span, limits: {} }, inTurn)).ok).toBe(true);
    if (storage === "full") expect(await captureFolders()).toEqual([]);
  });

  test("is gone with a tab killed while it was written, and what was kept before stays", async () => {
    const first = startPlayground();
    await first.service.setRoom(small);
    const kept = await open(first.service, text());
    expect(await first.service.kept(kept.id)).toBeNull();
    await new Promise<void>((resolve) => {
      const file = text({ rows: 450_000, name: "b.csv" });
      const killed = proxy((_done: number, _total: number, partial?: unknown) => partial && resolve());
      void first.service.open({ file, name: "b.csv", choices: {} }, killed);
    });
    first.worker.terminate();
    expect((await captureFolders()).length).toBe(2);

    const second = startPlayground();
    await second.service.setRoom(small);
    for (let tries = 0; tries < 50 && (await captureFolders()).length > 1; tries++) {
      await second.service.sweep(); // The browser lets go of a dead worker's locks a moment later.
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
    expect(await captureFolders()).toEqual([kept.id]);
    expect(await second.service.reopen(kept.id, {})).toMatchObject({ ok: true, value: { name: "a.csv" } });
  });
});

/** Rates of stamps that lie on a grid in parts are told apart only in digits that the file does not have. */
function withoutRates<S extends { readonly channels: readonly ChannelSummary[] }>({ channels, ...rest }: S) {
  const round = (time: number) => Number(time.toFixed(5));
  const plain = channels.map(({ rate: _, from, to, ...channel }) => ({ ...channel, from: round(from), to: round(to) }));
  return { ...rest, span: null, channels: plain };
}
