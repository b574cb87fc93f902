// Two recordings of one run on one time axis: how far the second is shifted, told by what both of them recorded.

import { bestOverlay } from "../../signal/likeness/overlay.ts";
import { notResolvable } from "../../signal/numbers/reading.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import { onGrid } from "../../signal/series/resample.ts";
import { countOf, type Series, timeAt } from "../../signal/series/series.ts";
import { usualStep } from "../../signal/series/usual-step.ts";
import { type Shift, shiftByCorrelation } from "./line-up.ts";

/** One quantity as both recorders took it. */
export interface RunPair {
  readonly mine: Series;
  readonly theirs: Series;
  /** For people: "the front sensors". */
  readonly name: string;
}

/** Below this mean correlation two recordings are not taken for the same run; common practice: half alike. */
const leastLikeness = 0.5;
/** The finer recording is thinned to so many points per step of the coarser one, and both to so many in all. */
const finer = 64;
const mostPoints = 1 << 17;

/**
 * First all pairs together say where the two lie, sought over every shift; then the pair that tells it most closely gives
 * the shift and its bounds (`shiftByCorrelation`) over all that overlaps. The clocks are taken to run alike.
 *
 * @returns `not-resolvable` where the two share nothing, or do not look like one run.
 */
export function shiftOfRun(pairs: readonly RunPair[]): Shift {
  const rough = bestOverlay(pairs.map(({ mine, theirs }) => [mine, theirs]));
  if (!rough) return unlike("The two recordings share no channel that moves, or hardly overlap.");
  if (rough.likeness < leastLikeness) return unlike("The two recordings do not look like the same run.");
  const most = Math.max(1, 4 * rough.step);
  const all = pairs.map(({ mine, theirs, name }) => {
    const [one, other] = thinned(mine, theirs);
    const rule = { guess: rough.shift, most, says: `Where ${name} run most alike, whole run` };
    return shiftByCorrelation(one, other, rule);
  });
  const [closest] = all.filter(({ shift }) => shift.value !== null).sort((a, b) => width(a) - width(b));
  if (!closest) return unlike("No channel of both tells the shift closely enough.");
  return { ...closest, ambiguousBy: rough.ambiguousBy };
}

const width = ({ shift: { low, high } }: Shift) => high! - low!;

const unlike = (because: string): Shift => ({
  shift: notResolvable("s", because),
  by: "correlation",
  says: "not lined up",
  ambiguousBy: null,
});

/** Not lined up: both are drawn from their first samples. */
export const notLinedUp: Shift = unlike("Not lined up yet: both begin at 0.");

function thinned(mine: Series, theirs: Series): readonly [Series, Series] {
  const coarser = Math.max(usualStep(mine.time), usualStep(theirs.time));
  return [thin(mine, coarser / finer), thin(theirs, coarser / finer)];
}

/** Even steps no finer than `step`, the samples of each step averaged; a series that is coarse already stays. */
function thin(series: Series, step: Seconds): Series {
  const { time } = series;
  const count = countOf(time);
  if (count < 2) return series;
  const [start, end] = [timeAt(time, 0), timeAt(time, count - 1)];
  const wanted = Math.max(step, (end - start) / mostPoints);
  if (!(wanted > 1.5 * usualStep(time))) return series;
  const cells = Math.floor((end - start) / wanted);
  const doubt = time.doubt === undefined ? {} : { doubt: time.doubt };
  return {
    time: { kind: "even", start: start + wanted / 2, step: wanted, count: cells, ...doubt },
    samples: averaged(series, { start, step: wanted, count: cells }),
  };
}

/** Mean of what each cell holds; where a cell holds no sample, the line between its neighbours, and NaN over a gap. */
function averaged(series: Series, grid: { start: Seconds; step: Seconds; count: number }): Float64Array<ArrayBuffer> {
  const { start, step, count } = grid;
  const [sums, known] = [new Float64Array(count), new Uint32Array(count)];
  for (let i = 0; i < series.samples.length; i++) {
    const cell = Math.floor((timeAt(series.time, i) - start) / step);
    const value = series.samples[i]!;
    if (cell < 0 || cell >= count || Number.isNaN(value)) continue;
    sums[cell]! += value;
    known[cell]!++;
  }
  const between = onGrid(series, { start: start + step / 2, step, count });
  return between.map((value, cell) => (known[cell] === 0 || Number.isNaN(value) ? value : sums[cell]! / known[cell]!));
}
