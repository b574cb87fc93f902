import { readFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { memorySource } from "../../src/capture/bytes/sources.ts";
import type { Capture, Channel, Role } from "../../src/capture/model/capture.ts";
import { readCapture } from "../../src/capture/readers.ts";
import { warningsOf } from "../../src/exhaust/findings/warnings.ts";
import { capture, even } from "./make.ts";

const report = { progress: () => {}, signal: new AbortController().signal };

/** The simulator's files: their truth is that nothing is clipped or swapped. */
function sample(name: string): Promise<Capture> {
  const packed = readFileSync(new URL(`../../sample-traces/${name}`, import.meta.url));
  const bytes = name.endsWith(".gz") ? gunzipSync(packed) : packed;
  return readCapture(memorySource(bytes, name), {}, report);
}

function changed(capture: Capture, change: (channel: Channel) => Channel): Capture {
  return { ...capture, channels: capture.channels.map(change) };
}

const clippedAt = (rail: number) => (channel: Channel) =>
  channel.role === "front-o2"
    ? { ...channel, series: { ...channel.series, samples: channel.series.samples.map((v) => Math.min(v, rail)) } }
    : channel;

const exchanged: Partial<Record<Role, Role>> = { "front-o2": "rear-o2", "rear-o2": "front-o2" };
const swap = (channel: Channel) => ({ ...channel, role: exchanged[channel.role] ?? channel.role });

const texts = (capture: Capture) => warningsOf(capture, 1).map(({ text }) => text);

const files = [
  "good-catalyst",
  "dead-catalyst",
  "worn-catalyst",
  "slow-front-sensor",
  "leak-ahead-of-sensor",
  "rear-sensor-asleep",
];

describe("warningsOf", () => {
  test.each(files.flatMap((name) => [`${name}-scope.csv.gz`, `${name}-polled.csv`]))(
    "finds nothing wrong with %s",
    async (name) => {
      expect(texts(await sample(name))).toEqual([]);
    },
  );

  test("tells a channel cut off at 0.7 V, and where", async () => {
    const capture = await sample("good-catalyst-scope.csv.gz");
    expect(texts(changed(capture, clippedAt(0.7)))).toEqual([expect.stringMatching(/clipped at 0\.7\sV/)]);
  });

  // First-order steps of 40 ms between 0.1 and 0.85 V, a fuel cut of 6 s in the middle; no noise, written in steps of 10 mV.
  const settling = (target: (t: number) => number) => {
    let level = 0.1;
    const samples = Float64Array.from({ length: 30_000 }, (_, i) => {
      level += (target(i / 1000) - level) * (1 - Math.exp(-1 / 40));
      return Math.round(100 * level) / 100;
    });
    return capture(even("front-o2", 30, 1000, (t) => samples[Math.round(1000 * t)]!));
  };
  const hunting = (t: number) => (t > 12 && t < 18 ? 0.02 : t % 1.2 < 0.6 ? 0.1 : 0.85);

  test("tells no clean signal that settles from one that was cut off", () => {
    const clean = settling(hunting);
    expect(texts(clean)).toEqual([]);
    expect(texts(changed(clean, clippedAt(0.6)))).toEqual([expect.stringMatching(/clipped at 0\.6\sV/)]);
  });

  test.each(["good-catalyst-scope.csv.gz", "good-catalyst-polled.csv"])(
    "tells front and rear in each other's place: %s",
    async (name) => {
      expect(texts(changed(await sample(name), swap))).toEqual([expect.stringContaining("swapped")]);
    },
  );

  test("says nothing of a bank without sensors", async () => {
    expect(warningsOf(await sample("good-catalyst-polled.csv"), 2)).toEqual([]);
  });
});
