// Cost against size: loading must grow no faster than the file, a window query must not grow at all.

import { countOf } from "../../src/signal/series/series.ts";
import { MemoryBody } from "../../workers/body/memory-body.ts";
import { type Bench, ms, percentile } from "./bench.ts";

const sizes = [1_000_000, 10_000_000, 100_000_000];

/** A ramp with a ripple: the cost does not depend on the values. */
function samplesOf(count: number): Float32Array {
  const samples = new Float32Array(count);
  for (let i = 0; i < count; i++) samples[i] = (i % 1000) / 1000;
  return samples;
}

function costs(count: number) {
  const series = { time: { kind: "even" as const, start: 0, step: 1e-4, count }, samples: samplesOf(count) };
  const labels = { role: "front-o2", bank: 1, unit: "V", fileUnit: "V", polled: false } as const;
  const channels = [{ id: "c1", name: "front", series, ...labels }];
  const started = performance.now();
  const body = new MemoryBody({ name: "", format: "", startedAt: null, remarks: [], channels });
  const whole = { from: 0, to: countOf(series.time) * 1e-4 };
  body.window("c1", { gain: 1, offset: 0 }, whole, 1500);
  const load = performance.now() - started;
  const took: number[] = [];
  for (let query = 0; query < 300; query++) {
    const length = whole.to * (0.2 + 0.8 * Math.random());
    const from = Math.random() * (whole.to - length);
    const began = performance.now();
    body.window("c1", { gain: 1, offset: 0 }, { from, to: from + length }, 1500);
    took.push(performance.now() - began);
  }
  return { load, query: percentile(took, 0.5) };
}

export const bench: Bench = {
  name: "growth",
  async run() {
    costs(sizes[0]!); // warms the code
    const found = sizes.map((count) => {
      const runs = [costs(count), costs(count), costs(count)];
      return { load: Math.min(...runs.map(({ load }) => load)), query: Math.min(...runs.map(({ query }) => query)) };
    });
    const [small, , large] = found as [(typeof found)[0], (typeof found)[0], (typeof found)[0]];
    const loads = large.load / small.load / 100;
    const queries = large.query / small.query;
    return [
      {
        what: "block bounds of 1, 10, 100 M samples",
        budget: "linear within 2x",
        figure: found.map(({ load }) => ms(load)).join(", "),
        peer: "100 times the first",
        ratio: `${loads.toFixed(2)}x`,
        holds: loads <= 2,
      },
      {
        what: "window query over most of 1, 10, 100 M samples, median",
        budget: "flat within 2x",
        figure: found.map(({ query }) => ms(query)).join(", "),
        peer: "the first",
        ratio: `${queries.toFixed(2)}x`,
        holds: queries <= 2,
      },
    ];
  },
};
