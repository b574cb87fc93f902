// Low-pass that shifts nothing in time: a Butterworth filter run forwards and backwards.

import type { Hertz, Seconds } from "../numbers/units.ts";
import type { Samples } from "../series/series.ts";
import { stepRise } from "./filter-rise.ts";

export interface LowPass {
  /** Half-power frequency of one pass, Hz; both passes together lose a factor 2 in amplitude there. */
  readonly cutoff: Hertz;
  /** Order of one pass; 2 unless given. */
  readonly order?: number;
}

/** One second-order section: y = b0 x + b1 x' + b2 x'' - a1 y' - a2 y''. */
type Section = readonly [b0: number, b1: number, b2: number, a1: number, a2: number];

/**
 * Zero-phase Butterworth low-pass.
 *
 * @param samples  evenly spaced, length n. NaN marks a missing sample: each run between such is filtered by itself.
 * @param step     s between samples.
 * @param into     length n, written and returned; a new array unless given; may be `samples` itself.
 * @returns length n; NaN where the sample is missing. Runs too short for the start-up (three times the number
 *          of coefficients) are given back unfiltered.
 * @throws RangeError unless 0 < cutoff < 1 / (2 step) and order is a whole number >= 1, or where `into` has another length (a
 *         caller's bug).
 *
 * Poles by the bilinear transform with prewarping; second-order sections; both ends continued by their point reflection
 * and started in the steady state of the first value, as is usual for forward-backward filters (Gustafsson, IEEE Trans.
 * Signal Process. 44 (1996) 988 discusses the choices).
 */
export function zeroPhaseLowPass(
  samples: Samples,
  step: Seconds,
  lowPass: LowPass,
  into: Float64Array<ArrayBuffer> = new Float64Array(samples.length),
): Float64Array<ArrayBuffer> {
  if (into.length !== samples.length) throw new RangeError(`want room for ${samples.length}, got ${into.length}`);
  const sections = sectionsOf(step, lowPass);
  const pad = 3 * (2 * sections.length + 1 - (sections.some((s) => s[4] === 0) ? 1 : 0));
  const n = samples.length;
  let from = 0;
  while (from < n) {
    while (from < n && Number.isNaN(samples[from]!)) into[from++] = NaN;
    let to = from;
    while (to < n && !Number.isNaN(samples[to]!)) to++;
    const [run, room] = [samples.subarray(from, to), into.subarray(from, to)];
    if (to - from > pad) filterRun(run, room, sections, pad);
    else room.set(run);
    from = to;
  }
  return into;
}

function sectionsOf(step: Seconds, { cutoff, order = 2 }: LowPass): Section[] {
  if (!(cutoff > 0 && 2 * cutoff * step < 1 && Number.isInteger(order) && order >= 1)) {
    throw new RangeError(
      `want 0 < cutoff < half the rate and order >= 1, got ${cutoff} Hz at ${step} s, order ${order}`,
    );
  }
  const warped = Math.tan(Math.PI * cutoff * step);
  const sections: Section[] = [];
  if (order % 2 === 1) {
    const a1 = (warped - 1) / (warped + 1);
    sections.push([(1 + a1) / 2, (1 + a1) / 2, 0, a1, 0]);
  }
  for (let k = 0; k < Math.floor(order / 2); k++) {
    const damping = 2 * Math.sin((Math.PI * (2 * k + 1)) / (2 * order));
    const scale = 1 + damping * warped + warped ** 2;
    const gain = warped ** 2 / scale;
    sections.push([
      gain,
      2 * gain,
      gain,
      (2 * (warped ** 2 - 1)) / scale,
      (1 - damping * warped + warped ** 2) / scale,
    ]);
  }
  return sections;
}

/** A section that changes nothing. */
const plain: Section = [1, 0, 0, 0, 0];

/**
 * Filters a run into `room` of its length, forwards and backwards, over its point reflections at either end. The run is
 * read in the first pass only, and each pass takes two sections: their sums do not wait for each other.
 */
function filterRun(run: Samples, room: Float64Array, sections: readonly Section[], pad: number): void {
  const n = run.length;
  const [head, tail] = [new Float64Array(pad), new Float64Array(pad)];
  for (let k = 1; k <= pad; k++) {
    head[pad - k] = 2 * run[0]! - run[k]!;
    tail[k - 1] = 2 * run[n - 1]! - run[n - 1 - k]!;
  }
  const pairs = sections.flatMap((section, k) => (k % 2 === 0 ? [[section, sections[k + 1] ?? plain] as const] : []));
  for (const [k, pair] of pairs.entries()) {
    const stages = pair.map((section) => new Stage(section, head[0]!)) as [Stage, Stage];
    pass(head, head, stages, 1);
    pass(k === 0 ? run : room, room, stages, 1);
    pass(tail, tail, stages, 1);
  }
  for (const pair of pairs) {
    const stages = pair.map((section) => new Stage(section, tail[pad - 1]!)) as [Stage, Stage];
    for (const part of [tail, room, head]) pass(part, part, stages, -1);
  }
}

/** A section and where it stands, started in the steady state of a first value; its gain at 0 Hz is 1. */
class Stage {
  readonly section: Section;
  first: number;
  second: number;

  constructor(section: Section, initial: number) {
    const [, b1, b2, a1, a2] = section;
    this.section = section;
    this.second = (b2 - a2) * initial;
    this.first = (b1 - a1) * initial + this.second;
  }
}

/** Two sections, one behind the other, from one array into another or the same (direct form II transposed). */
function pass(from: Samples, to: Float64Array, [one, two]: readonly [Stage, Stage], direction: 1 | -1): void {
  const [b0, b1, b2, a1, a2] = one.section;
  const [d0, d1, d2, c1, c2] = two.section;
  let { first: p, second: q } = one;
  let { first: r, second: s } = two;
  const n = from.length;
  const start = direction > 0 ? 0 : n - 1;
  for (let k = 0; k < n; k++) {
    const i = start + direction * k;
    const x = from[i]!;
    const y = b0 * x + p;
    p = b1 * x - a1 * y + q;
    q = b2 * x - a2 * y;
    const z = d0 * y + r;
    r = d1 * y - c1 * z + s;
    s = d2 * y - c2 * z;
    to[i] = z;
  }
  Object.assign(one, { first: p, second: q });
  Object.assign(two, { first: r, second: s });
}

/**
 * 10-90 % time of the filter's own answer to a step, s; about 0.45 / cutoff for order 2.
 *
 * @param step  s between samples, > 0.
 * @returns s; NaN where the answer to a pulse never reaches 90 %.
 * @throws RangeError as `zeroPhaseLowPass` (a caller's bug).
 *
 * A transition of 10-90 % time T comes out between T and sqrt(T² + rise²): the response is as flat as can be at 0 Hz, so an
 * edge slower than the filter passes nearly unchanged, and only steeper ones are drawn out.
 */
export function zeroPhaseRise(step: Seconds, lowPass: LowPass): Seconds {
  const reach = Math.ceil(4 / (lowPass.cutoff * step)) + 30;
  const pulse = new Float64Array(2 * reach + 1);
  pulse[reach] = 1;
  return stepRise(zeroPhaseLowPass(pulse, step, lowPass)) * step;
}
