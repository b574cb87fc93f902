// A healthy trace cut to a span and a number of columns: of each column the lowest and the highest, as lanes draw them.

import type { Polyline } from "../../drawing/paths.ts";
import type { HealthyTrace } from "../../exhaust/store/healthy.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";

export interface CutTrace {
  readonly times: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly fitted: Polyline;
}

/** One cell past each edge is kept. */
export function cutTo(trace: HealthyTrace, span: Span, columns: number): CutTrace {
  const { from, step, low, high, fitted } = trace;
  const first = Math.max(0, Math.floor((span.from - from) / step) - 1);
  const last = Math.min(low.length, Math.ceil((span.to - from) / step) + 1);
  const per = Math.max(1, Math.ceil((last - first) / Math.max(1, columns)));
  const count = Math.max(0, Math.ceil((last - first) / per));
  const cells = (values: Float32Array, k: number) =>
    values.subarray(first + k * per, Math.min(last, first + (k + 1) * per));
  const times = Float64Array.from({ length: count }, (_, k) => from + (first + k * per + per / 2) * step);
  const column = (values: Float32Array, take: (...all: number[]) => number) =>
    times.map((_, k) => take(...cells(values, k).filter((volts) => !Number.isNaN(volts)))).map(known);
  if (per === 1) {
    const values = times.map((_, k) => fitted[first + k]!);
    return { times, low: column(low, Math.min), high: column(high, Math.max), fitted: { times, values, dense: false } };
  }
  const [bottom, top] = [column(fitted, Math.min), column(fitted, Math.max)];
  const twice = { times: both(times, times), values: both(bottom, top), dense: true };
  return { times, low: column(low, Math.min), high: column(high, Math.max), fitted: twice };
}

/** Of no value at all, lowest and highest are infinite. */
const known = (value: number): number => (Number.isFinite(value) ? value : NaN);

const both = (a: Float64Array, b: Float64Array) =>
  Float64Array.from({ length: 2 * a.length }, (_, i) => (i % 2 === 0 ? a : b)[i >> 1]!);
