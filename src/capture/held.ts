// Channels written more often than they are refreshed: the repeats are no samples of their own.

import type { Samples } from "../signal/series.ts";
import type { Role } from "./capture.ts";
import { firstPictureRows } from "./partial-pace.ts";

const switching: readonly Role[] = ["front-o2", "rear-o2", "front-lambda"];
const enough = { changes: 12, differentValues: 8 };

/**
 * For how many rows each value of a sensor stays, where all stay about equally long: then the log repeats what it last
 * heard. A sensor that really rests does so for spans of all lengths.
 *
 * @returns null where every row may be a new sample. Long files are left as they are, as parts of them have been shown.
 */
export function rowsHeld(values: Samples, role: Role): number | null {
  if (!switching.includes(role) || values.length >= firstPictureRows) return null;
  const runs = runsOf(values).slice(1, -1);
  if (runs.length < enough.changes || new Set(values).size < enough.differentValues) return null;
  const lengths = runs.sort((a, b) => a - b);
  const [short, long] = [0.1, 0.9].map((share) => lengths[Math.floor(share * (lengths.length - 1))]!) as [
    number,
    number,
  ];
  return short >= 2 && long <= 2 * short ? long : null;
}

/** Lengths of the runs of equal values; NaN ends a run and counts for nothing. */
function runsOf(values: Samples): number[] {
  const runs: number[] = [];
  let length = 0;
  for (let i = 0; i <= values.length; i++) {
    if (length > 0 && values[i] !== values[i - 1]) {
      runs.push(length);
      length = 0;
    }
    if (i < values.length && !Number.isNaN(values[i]!)) length++;
  }
  return runs;
}

/** Which rows bring a value of their own: a change, one as old as a refresh takes, and the last. */
export function freshRows(values: Samples, held: number): Int32Array {
  const kept: number[] = [];
  for (let i = 0; i < values.length; i++) {
    const isDue = i - (kept.at(-1) ?? Number.NEGATIVE_INFINITY) >= held;
    if (isDue || values[i] !== values[i - 1] || i === values.length - 1) kept.push(i);
  }
  return Int32Array.from(kept);
}
