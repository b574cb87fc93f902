import { afterEach, describe, expect, test } from "vitest";
import { memorySource } from "../../src/capture/bytes/sources.ts";
import { readCapture } from "../../src/capture/readers.ts";
import { measurePair } from "../../src/exhaust/activity/pair.ts";
import type { Span } from "../../src/exhaust/terms/analysis.ts";
import { type CaptureClient, startCaptureClient } from "../../workers/client.ts";
import type { CaptureSummary } from "../../workers/protocol.ts";
import { difference } from "../difference.ts";
import { isLongForm } from "../share.ts";

let client: CaptureClient | null = null;
afterEach(() => client?.close());

/** Two sensors at 10,000 per second. */
function recording(rows: number): File {
  const lines = Array.from({ length: rows }, (_, i) => {
    const front = 0.45 + 0.4 * Math.tanh(3 * Math.sin(i / 1300)) + 0.003 * Math.sin(i * i);
    return `${(i / 10_000).toFixed(4)},${front.toFixed(4)},${(0.6 + 0.1 * Math.sin(i / 7000)).toFixed(4)}`;
  });
  return new File([`time s,O2S B1S1 V,O2S B1S2 V\n${lines.join("\n")}\n`], "scope.csv");
}

async function opened(file: File, onProgress: Parameters<CaptureClient["open"]>[1] = () => {}) {
  client = startCaptureClient();
  const outcome = await client.open({ file, name: file.name, choices: {} }, onProgress);
  if (!outcome.ok) throw new Error(outcome.problem.what);
  return { client, summary: outcome.value };
}

describe("the capture worker of the page", { timeout: 60_000 }, () => {
  test("reads, shows what it has on the way, and answers windows of it", async () => {
    const partials: CaptureSummary[] = [];
    const { client, summary } = await opened(recording(200_000), (_done, _total, partial) => {
      if (partial) partials.push(partial);
    });
    expect(partials.length).toBeGreaterThan(0);
    expect(partials[0]!.span.to).toBeLessThan(summary.span.to);
    const ask = client.newestWindow();
    const windows = await ask({ take: summary.take, channelIds: ["c2", "c3"], span: summary.span, width: 500 });
    expect(windows?.map(({ channelId, dense }) => [channelId, dense])).toEqual([
      ["c2", true],
      ["c3", true],
    ]);
  });

  test("tells values as they are seen through a filter, and as recorded without", async () => {
    const { client, summary } = await opened(recording(50_000));
    const filters = { c2: { kind: "low-pass", cutoff: 0.2 } } as const;
    const [plain] = await client.valuesAt(summary.take, ["c2"], 1);
    const [seen] = await client.valuesAt(summary.take, ["c2"], 1, filters);
    // A swing about 0.45 V every 0.8 s: nothing of it is left below 0.2 Hz.
    expect(plain!.value).toBeGreaterThan(0.8);
    expect(seen!.value).toBeCloseTo(0.45, 1);
  });

  // Judge: the same measurement without any worker.
  test.runIf(isLongForm)("measures a large span in its own thread to the same readings", async () => {
    const file = recording(400_000);
    const { client, summary } = await opened(file);
    const told: number[] = [];
    const { span, take } = summary;
    const onProgress = (done: number, total: number) => told.push(done / total);
    const outcome = await client.measure({ take, span, limits: {} }, { urgency: "span", onProgress });
    const bytes = new Uint8Array(await file.arrayBuffer());
    const report = { progress: () => {}, signal: new AbortController().signal };
    const direct = measurePair(await readCapture(memorySource(bytes, file.name), {}, report), 1, span);
    expect(difference(outcome, { ok: true, value: direct })).toBe(null);
    expect(told.length).toBeGreaterThan(2);
    // It never goes back; a measurement that takes longer than expected waits short of its end.
    expect(told.every((share, k) => share > 0 && share >= (told[k - 1] ?? 0) && share < 1)).toBe(true);
  });

  test("gives up a measurement when told to, and measures again after it", async () => {
    const { client, summary } = await opened(recording(400_000));
    const { take, span } = summary;
    const measure = (over: Span, signal?: AbortSignal) =>
      client.measure({ take, span: over, limits: {} }, { urgency: "span", signal });
    const giving = new AbortController();
    const slow = measure(span, giving.signal);
    giving.abort();
    expect(await slow).toMatchObject({ ok: false, problem: { code: "cancelled" } });
    expect((await measure({ from: 1, to: 20 })).ok).toBe(true);
    expect((await measure(span)).ok).toBe(true);
  });
});
