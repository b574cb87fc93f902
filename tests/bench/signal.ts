// npm run bench:signal: kernels over 10 million samples, against numpy and SciPy for the same work in the same run; writes signal.md.
// Both sides count processor time, so that other work on the machine hardly matters; the least of five runs stands.

import { spawnSync } from "node:child_process";
import { findCrossings } from "../../src/signal/edges/crossings.ts";
import { findTransitions } from "../../src/signal/edges/transitions.ts";
import { zeroPhaseLowPass } from "../../src/signal/filters/butterworth.ts";
import { medianFilter } from "../../src/signal/filters/median-filter.ts";
import { meanOf } from "../../src/signal/levels/mean.ts";
import { correlate } from "../../src/signal/numbers/fourier.ts";
import type { Series } from "../../src/signal/series/series.ts";
import { extremesOf } from "../../src/signal/statistics/extremes.ts";
import { noiseOf } from "../../src/signal/statistics/noise.ts";
import { percentiles } from "../../src/signal/statistics/statistics.ts";

/** The same wave on both sides: 1 Hz between two states at 10 kHz, with a little noise from a generator of integers. */
function wave(count: number): Float64Array {
  const samples = new Float64Array(count);
  let state = 7;
  for (let i = 0; i < count; i++) {
    state = (state * 16807) % 2147483647;
    samples[i] = 0.45 + 0.35 * Math.tanh(4 * Math.sin((2 * Math.PI * i) / 10_000)) + 0.02 * (state / 2147483647 - 0.5);
  }
  return samples;
}

/** Room that an earlier run left behind. */
const room = new Float64Array(Number(process.argv[2] ?? 10_000_000));

const kernels: Record<string, (x: Float64Array) => unknown> = {
  extremes: (x) => extremesOf(x.subarray()),
  "mean with bounds": (x) => meanOf(asSeries(x.subarray())),
  "crossings, interpolated": (x) => findCrossings(asSeries(x), { level: 0.45, hysteresis: 0.05, noise: 0 }),
  "transitions, interpolated": (x) => findTransitions(asSeries(x), { from: 0.6, to: 0.3, noise: 0 }),
  "crossings in noise, fitted": (x) => findCrossings(asSeries(x.subarray()), { level: 0.45, hysteresis: 0.05 }),
  percentiles: (x) => percentiles(x, [0.05, 0.95]),
  "median of 5": (x) => medianFilter(x, 5),
  "zero-phase Butterworth 4": (x) => zeroPhaseLowPass(x, 1e-4, { cutoff: 100, order: 4 }),
  "the same, into room kept": (x) => zeroPhaseLowPass(x, 1e-4, { cutoff: 100, order: 4 }, room.subarray(0, x.length)),
  "correlation of 2^20": (x) => correlate(x.subarray(0, 1 << 20), x.subarray(1 << 20, 2 << 20), 1000),
  "noise (a sample of chunks)": (x) => noiseOf(x.subarray()),
};

/** The same work in numpy and SciPy; null where they have none. */
const peers: Record<string, string> = {
  extremes: "(x.min(), x.max())",
  "mean with bounds": "mean_with_bounds(x)",
  "crossings, interpolated": "crossings(x)",
  "transitions, interpolated": "transitions(x)",
  "crossings in noise, fitted": "fitted_crossings(x)",
  percentiles: "np.percentile(x, [5, 95])",
  "median of 5": "ndimage.median_filter(x, 5)",
  "zero-phase Butterworth 4": "signal.sosfiltfilt(sos, x)",
  "the same, into room kept": "signal.sosfiltfilt(sos, x)",
  "correlation of 2^20": "signal.correlate(x[:1 << 20], x[1 << 20:2 << 20], method='fft')",
};

const python = `
import json, sys, time
import numpy as np
from scipy import signal, ndimage
x = np.fromfile(sys.argv[1])
sos = signal.butter(4, 100, fs=1e4, output="sos")
def sides(x, low, high):
    side = np.where(x > high, 1, np.where(x < low, -1, 0)).astype(np.int8)
    at = np.flatnonzero(side)
    turn = np.flatnonzero(side[at[1:]] != side[at[:-1]])
    return at[turn], at[turn + 1]
def meet(x, before, after, level):
    a, b = x[before], x[after]
    return 1e-4 * (before + (after - before) * (level - a) / (b - a))
def crossings(x):
    return meet(x, *sides(x, 0.4, 0.5), 0.45)
def transitions(x):
    before, after = sides(x, 0.3, 0.6)
    falls = x[before] > 0.6
    before, after = before[falls], after[falls]
    return meet(x, after - 1, after, 0.3) - meet(x, before, before + 1, 0.6)
def mean_with_bounds(x):
    count = np.isfinite(x).sum()
    area = 1e-4 * (x.sum() - (x[0] + x[-1]) / 2)
    means = x[: count // 32 * 32].reshape(32, -1).mean(axis=1)
    return area / (1e-4 * (len(x) - 1)), 1.96 * means.std(ddof=1) / np.sqrt(32)
def fitted_crossings(x):
    # Parabola to quintic over windows that grow by a fifth, to half the distance of crossings; one in fifty, times fifty.
    before, after = sides(x, 0.4, 0.5)
    start = time.process_time()
    for at in before[25::50]:
        reach = 2
        while reach <= 2500 and at - reach >= 0 and at + reach < len(x):
            t = np.arange(-reach, reach + 1) / reach
            for degree in (2, 3, 4, 5):
                if 2 * reach + 1 > degree:
                    np.polyfit(t, x[at - reach : at + reach + 1], degree)
            reach = max(reach + 1, int(1.2 * reach))
    global extra
    extra = 49 * (time.process_time() - start)
extra = 0
out = {}
for name, code in json.loads(sys.argv[2]).items():
    times = []
    for _ in range(5):
        extra = 0
        start = time.process_time()
        eval(code)
        times.append(1e3 * (time.process_time() - start + extra))
    out[name] = min(times)
print(json.dumps(out))
`;

function asSeries(samples: Float64Array): Series {
  return { time: { kind: "even", start: 0, step: 1e-4, count: samples.length }, samples };
}

/** Least processor time of five runs, ms. */
function timed(work: () => unknown): number {
  const times = [0, 1, 2, 3, 4].map(() => {
    const start = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(start);
    return (user + system) / 1000;
  });
  return Math.min(...times);
}

async function peerTimes(x: Float64Array): Promise<Record<string, number>> {
  const { mkdtempSync, rmSync, writeFileSync } = await import("node:fs");
  const { tmpdir } = await import("node:os");
  const { join } = await import("node:path");
  const folder = mkdtempSync(join(tmpdir(), "bench-"));
  try {
    writeFileSync(join(folder, "x.f64"), new Uint8Array(x.buffer));
    const run = spawnSync("/usr/bin/python3", ["-c", python, join(folder, "x.f64"), JSON.stringify(peers)], {
      encoding: "utf8",
    });
    return run.status === 0 ? (JSON.parse(run.stdout) as Record<string, number>) : {};
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const count = Number(process.argv[2] ?? 10_000_000);
const x = wave(count);
const small = x.subarray(0, count / 10);
const peer = await peerTimes(x);
const lines = [
  `# Kernels over ${count.toLocaleString("en")} samples

Made by \`npm run bench:signal\`: numpy and SciPy do the same work in the same run; processor time, the least of five, ms. Wanted:
a ratio of at most 1.5, and time that grows as the samples do.

| kernel | ms | peer ms | ratio | time for 10 x the samples |
| --- | ---: | ---: | ---: | ---: |`,
];
for (const [name, kernel] of Object.entries(kernels)) {
  const short = timed(() => kernel(small));
  const own = timed(() => kernel(x));
  const other = peer[name];
  const ratio = other === undefined ? "-" : (own / other).toFixed(2);
  const growth = name === "correlation of 2^20" ? "-" : `${(own / short).toFixed(1)} x`;
  lines.push(`| ${name} | ${own.toFixed(0)} | ${other?.toFixed(0) ?? "-"} | ${ratio} | ${growth} |`);
}
const text = `${lines.join("\n")}\n`;
if (count >= 10_000_000) (await import("node:fs")).writeFileSync(new URL("signal.md", import.meta.url), text);
console.log(text);
