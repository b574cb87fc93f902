// Small jobs and benches for the tests of this folder.

import { type ChannelFacts, defaultBench } from "../../src/job/edits/bench.ts";
import { keepCapture, newJob } from "../../src/job/edits/make.ts";
import type { BenchState, CaptureRecord, Dimension, Job } from "../../src/job/record/job.ts";

export const at = (minute: number) => `2026-03-01T10:${String(minute).padStart(2, "0")}:00.000Z`;

export const channels: readonly ChannelFacts[] = [
  { id: "c1", name: "Sensor 1", unit: "V", role: "front-o2", bank: 1 },
  { id: "c2", name: "Sensor 2", unit: "V", role: "rear-o2", bank: 1 },
  { id: "c3", name: "Engine speed", unit: "1/min", role: "engine-speed", bank: 1 },
  { id: "c4", name: "Throttle", unit: "%", role: "throttle", bank: 1 },
  { id: "c5", name: "Air flow", unit: "g/s", role: "air-flow", bank: 1 },
  { id: "c6", name: "Coolant", unit: "degC", role: "coolant-temp", bank: 1 },
];

export const bench: BenchState = defaultBench(channels);

export function dimension(id: string, change: Partial<Dimension> = {}): Dimension {
  return {
    id,
    kind: "time",
    laneId: "lane-c1",
    from: { time: 31.2, level: 0.45 },
    to: { time: 31.7, level: 0.45 },
    place: 0.6,
    label: "front to rear",
    reading: { value: 0.5, low: 0.49, high: 0.51, unit: "s", grade: "measured" },
    ...change,
  };
}

export function captureRecord(id: string, change: Partial<CaptureRecord> = {}): CaptureRecord {
  return { id, fileName: `${id}.csv`, sha256: id, size: 100, choices: {}, bench, ...change };
}

export const job: Job = keepCapture(newJob("j1", at(0), "Hatchback"), at(1), captureRecord("a1"));

/** As it stands once it is pinned. */
export const addDimension = (on: BenchState, one: Dimension): BenchState => ({
  ...on,
  dimensions: [...on.dimensions.filter(({ id }) => id !== one.id), one],
});
