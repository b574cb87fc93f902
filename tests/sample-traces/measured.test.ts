// The engine on the sample files, judged by the simulator's truth.

import { readFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import type { Truth } from "../../sample-traces/simulator/truth.ts";
import { memorySource } from "../../src/capture/bytes/sources.ts";
import { readCapture } from "../../src/capture/readers.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import type { Analysis } from "../../src/exhaust/terms/analysis.ts";
import type { Reading } from "../../src/signal/numbers/reading.ts";

const folder = new URL("../../sample-traces/", import.meta.url);

interface Judged {
  readonly analysis: Analysis;
  readonly truth: Truth;
}

/** Each file is measured once. */
const known = new Map<string, Promise<Judged>>();
function measure(name: string): Promise<Judged> {
  const found = known.get(name) ?? measureAnew(name);
  known.set(name, found);
  return found;
}

async function measureAnew(name: string): Promise<Judged> {
  const packed = name.endsWith("-scope");
  const bytes = readFileSync(new URL(`${name}.csv${packed ? ".gz" : ""}`, folder));
  const source = memorySource(packed ? gunzipSync(bytes) : bytes, `${name}.csv`);
  const capture = await readCapture(source, {}, { progress: () => {}, signal: new AbortController().signal });
  const truth = JSON.parse(readFileSync(new URL(`${name}.truth.json`, folder), "utf8")) as Truth;
  return { analysis: analyse(capture), truth };
}

function expectHolds({ low, high }: Reading, truth: number): void {
  expect(low ?? Number.NEGATIVE_INFINITY).toBeLessThanOrEqual(truth);
  expect(high ?? Number.POSITIVE_INFINITY).toBeGreaterThanOrEqual(truth);
}

const verdict = ({ findings }: Analysis, id: string) => findings.find((one) => one.id === id)!.verdict;

describe.each([
  "good-catalyst-scope",
  "dead-catalyst-scope",
  "good-catalyst-polled",
  "dead-catalyst-polled",
  "worn-catalyst-polled",
])("%s", async (name) => {
  const { analysis, truth } = await measure(name);

  test("shows its three lift-offs, with bounds that hold what really happened", () => {
    expect(analysis.liftOffs).toHaveLength(3);
    analysis.liftOffs.forEach((found, k) => {
      const event = truth.liftOffs[k]!;
      expectHolds(found.frontFall, event.frontFall!);
      expectHolds(found.rearFall, event.rearFall!);
      expectHolds(found.delay, event.delay!);
      expectHolds(found.storedOxygen, event.oxygenPassed!);
    });
  });

  test("claims no more than its sampling supports, and no less", () => {
    for (const { delay } of analysis.liftOffs) {
      const width = delay.high! - (delay.low ?? 0);
      // Scope: steps of 1 ms and 3 mV of noise on edges of about 10 V/s. Polled: at least one row either way.
      if (name.endsWith("-scope")) expect(width).toBeLessThan(0.005);
      else expect(width).toBeGreaterThan(0.5);
      if (name.endsWith("-polled") && !name.startsWith("good")) expect(delay.grade).toBe("at-most");
    }
  });
});

test("the good and the dead sample are told apart at scope rate", async () => {
  const [good, dead] = [await measure("good-catalyst-scope"), await measure("dead-catalyst-scope")];
  expect(verdict(good.analysis, "catalyst")).toBe("points-away");
  expect(verdict(dead.analysis, "catalyst")).toBe("points-to");
});

test("a rear sensor that never woke is found, and the catalyst not judged by it", async () => {
  const { analysis, truth } = await measure("rear-sensor-asleep-scope");
  expect(truth.rearAwakeAt).toBeNull();
  expect(verdict(analysis, "rear-sensor")).toBe("points-to");
  expect(verdict(analysis, "catalyst")).toBe("cannot-say");
  for (const { delay } of analysis.liftOffs) expect(delay.grade).toBe("not-resolvable");
});
