// Window queries of one channel of 25 million samples at random zooms, timed where they are answered.

import { MemoryBody } from "../../../workers/body/memory-body.ts";
import { percentile } from "../bench.ts";

self.onmessage = () => self.postMessage(p95(25_000_000));

/** ms */
function p95(count: number): number {
  const samples = Float32Array.from({ length: count }, (_, i) => Math.sin(i / 5000) + (i % 7) / 100);
  const series = { time: { kind: "even" as const, start: 0, step: 1e-4, count }, samples };
  const labels = { role: "front-o2", bank: 1, unit: "V", fileUnit: "V", polled: false } as const;
  const channels = [{ id: "c1", name: "front", series, ...labels }];
  const body = new MemoryBody({ name: "", format: "", startedAt: null, remarks: [], channels });
  const correction = { gain: 1, offset: 0 };
  body.window("c1", correction, { from: 0, to: 1 }, 1500);
  const took: number[] = [];
  for (let query = 0; query < 600; query++) {
    const length = 0.05 * (count / 500) ** Math.random();
    const from = Math.random() * (count * 1e-4 - length);
    const started = performance.now();
    for (let again = 0; again < 4; again++) body.window("c1", correction, { from, to: from + length }, 1500);
    took.push((performance.now() - started) / 4);
  }
  return percentile(took, 0.95);
}
