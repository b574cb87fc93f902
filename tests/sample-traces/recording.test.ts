// Recorders and dialects: what is written is what was there, and the reader gets it back.

import { readFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { demoCars } from "../../sample-traces/simulator/demo-cars.ts";
import { seededRandom } from "../../sample-traces/simulator/random.ts";
import { type PollSpec, recordPolled, recordScope } from "../../sample-traces/simulator/recorder.ts";
import { runCar } from "../../sample-traces/simulator/run.ts";
import { sampleFiles } from "../../sample-traces/simulator/samples.ts";
import type { Truth } from "../../sample-traces/simulator/truth.ts";
import { memorySource } from "../../src/capture/bytes/sources.ts";
import { readCapture } from "../../src/capture/readers.ts";
import { countOf, timeAt } from "../../src/signal/series/series.ts";

const short = runCar({ ...demoCars.good, drive: demoCars.good.drive.slice(0, 4) });

describe("a polled log", () => {
  const spec: PollSpec = {
    kind: "polled",
    requestsPerSecond: 10,
    jitter: 0.15,
    from: 0,
    to: 60,
    channels: ["frontVoltage", "rearVoltage", "engineSpeed", "coolant"],
    missed: 0.1,
  };
  const log = recordPolled(short, spec, seededRandom(1));

  // Arithmetic: four channels at ten requests a second are 2.5 rows a second.
  test("of four channels at ten requests a second has 2.5 rows a second", () => {
    expect((log.stamps.length - 1) / log.stamps.at(-1)!).toBeCloseTo(2.5, 1);
  });

  test("asks in turn, and stamps the row with its last answer", () => {
    for (let row = 1; row < log.stamps.length; row++) {
      const taken = log.columns.map((column) => column.taken![row]!);
      expect(taken).toEqual([...taken].sort((a, b) => a - b));
      expect(taken[0]!).toBeGreaterThan(log.stamps[row - 1]!);
      expect(taken.at(-1)!).toBe(log.stamps[row]!);
    }
  });

  // SAE J1979 tells a sensor voltage in steps of 5 mV.
  test("tells voltages in steps of 5 mV, as they were when asked", () => {
    const [{ samples, taken }] = log.columns as [(typeof log.columns)[number]];
    samples.forEach((told, row) => {
      const at = Math.round((log.start + taken![row]!) / short.step);
      expect(Math.abs(told / 0.005 - Math.round(told / 0.005))).toBeLessThan(1e-9);
      expect(Math.abs(told - short.frontVoltage[at]!)).toBeLessThan(0.03);
    });
  });

  test("now and then repeats a slow value, never a sensor's", () => {
    const speed = log.columns[2]!.samples;
    const repeats = speed.filter((value, row) => row > 20 && value === speed[row - 1]).length;
    expect(repeats / speed.length).toBeGreaterThan(0.03);
    expect(repeats / speed.length).toBeLessThan(0.25);
  });
});

test("a scope adds noise of the size asked for, and nothing else", () => {
  const resolution = 0.0001;
  const scope = recordScope(
    short,
    { kind: "scope", rate: 1000, from: 0, to: 60, noise: 0.01, resolution, channels: ["rearVoltage"] },
    seededRandom(2),
  );
  const error = scope.columns[0]!.samples.map((value, i) => value - short.rearVoltage[i]!);
  const mean = error.reduce((a, b) => a + b, 0) / error.length;
  const spread = Math.sqrt(error.reduce((sum, e) => sum + (e - mean) ** 2, 0) / error.length);
  // 60,000 samples: standard error of the mean 0.04 mV, of the deviation 0.03 mV; four of them.
  expect(Math.abs(mean)).toBeLessThan(0.00016);
  expect(Math.abs(spread - 0.01)).toBeLessThan(0.00012);
});

test.each(sampleFiles.map((file) => [file.name, file] as const))(
  "%s is read back with all its roles",
  async (name, file) => {
    const ending = file.recorder.kind === "scope" ? ".csv.gz" : ".csv";
    const bytes = readFileSync(new URL(`../../sample-traces/${name}${ending}`, import.meta.url));
    const plain = ending === ".csv.gz" ? gunzipSync(bytes) : bytes;
    const report = { progress: () => {}, signal: new AbortController().signal };
    const { channels } = await readCapture(memorySource(plain, `${name}.csv`), {}, report);
    const roles = channels.map(({ role }) => role);
    for (const role of ["front-o2", "rear-o2", "engine-speed", "throttle", "air-flow"]) expect(roles).toContain(role);
    expect(roles).not.toContain("other");
    expect(channels.every(({ polled }) => polled === (file.recorder.kind === "polled"))).toBe(true);
    // The sensors' voltages are in V and the last stretch ends where the file does, whatever units the file is in.
    const { time, samples } = channels[0]!.series;
    expect(channels[0]!.unit).toBe("V");
    expect(Float64Array.from(samples).reduce((a, b) => Math.max(a, b))).toBeLessThan(1);
    const truth = JSON.parse(
      readFileSync(new URL(`../../sample-traces/${name}.truth.json`, import.meta.url), "utf8"),
    ) as Truth;
    const end = timeAt(time, countOf(time) - 1);
    expect(end).toBeLessThanOrEqual(truth.stretches.at(-1)!.to);
    expect(end).toBeGreaterThan(truth.stretches.at(-1)!.from);
  },
);
