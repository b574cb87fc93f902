// Channels written more often than they are refreshed: the repeats are no samples of their own.

import type { Samples } from "../../signal/series/series.ts";
import { quantisationOf } from "../../signal/statistics/quantisation.ts";
import type { Role } from "../model/capture.ts";

/** Rows from which a refresh is told: half an hour at 100 rows/s. */
const judged = 200_000;
/** Longer files come from recorders with a clock of their own for each sample. */
const mostRows = 2_000_000;
/** Asked for with the sensors, and moving as quickly; what moves slowly stays equal by itself. */
const looked: readonly Role[] = [
  "front-o2",
  "rear-o2",
  "front-lambda",
  "engine-speed",
  "throttle",
  "air-flow",
  "manifold-pressure",
  "engine-load",
];
const enough = { changes: 12, differentValues: 8, stops: 5 };
/** A jump is more than two steps of the quantisation: what is rounded twice creeps by one step or by two. */
const stepsOfJump = 2.5;
/** At least this share of the changes are jumps; and of the ways between two jumps alike, this share are stops. */
const jumpShare = 0.25;
const stopShare = 0.9;

/**
 * For how many rows each value of a sensor stays, where the log repeats what it last heard.
 *
 * A signal that was sampled in each row repeats a value only while it hardly moves, and then goes on by single steps of its
 * quantisation. Either of two things shows a refresh that is slower than the rows:
 * - all values stay about equally long, and a good part of them then jump;
 * - the signal stops amid movement: it jumps, stands still for two rows or more, and jumps on in the same direction, nearly
 *   always and for about as long. This is seen in a rear sensor that rests, too, once it falls.
 *
 * Not told apart by itself: a refresh whose values differ by one or two steps only (no edge lies in it that could be timed too
 * well), and a channel that rests. Where other channels of the log are held (`cadences`), one that never changes sooner than
 * they do is held as well. Steps of a true square wave that never returns to a level it had look like refreshes: its bounds
 * come out too wide, never too narrow. The first 200,000 rows tell for all. Files of 2 million rows or more are left as they are.
 *
 * @param values  one per row; NaN ends a run.
 * @param cadences  rows for which other channels of the log are held, as told by `cadencesOf`.
 * @returns rows, >= 2; null where every row may be a new sample.
 */
export function rowsHeld(values: Samples, role: Role, cadences: readonly number[] = []): number | null {
  if (values.length >= mostRows || (cadences.length === 0 && !looked.includes(role))) return null;
  const alone = heldByItself(values, role);
  return alone === null && cadences.length > 0 ? heldAlike(changesOf(headOf(values)), cadences) : alone;
}

const headOf = (values: Samples): Samples => (values.length > judged ? values.subarray(0, judged) : values);

/** What was found, for as long as the samples are there: each channel is asked for the log's cadences first, then for its own. */
const foundAlone = new WeakMap<Samples, { readonly role: Role; readonly rows: number | null }>();

function heldByItself(values: Samples, role: Role): number | null {
  const known = foundAlone.get(values);
  if (known?.role === role) return known.rows;
  const rows = looked.includes(role) ? toldAlone(headOf(values)) : null;
  foundAlone.set(values, { role, rows });
  return rows;
}

function toldAlone(head: Samples): number | null {
  const changes = changesOf(head);
  if (changes.by.length < enough.changes || !holdsDifferent(head, enough.differentValues)) return null;
  const jump = stepsOfJump * quantisationOf(head);
  return heldByRegularity(changes, jump) ?? heldByStops(changes, jump);
}

/** For how many rows channels of the log are held, as each shows by itself; the longest first. */
export function cadencesOf(columns: readonly { readonly values: Samples; readonly role: Role }[]): number[] {
  return columns.flatMap(({ values, role }) => rowsHeld(values, role) ?? []).sort((a, b) => b - a);
}

/** Whether so many different values occur. */
function holdsDifferent(values: Samples, least: number): boolean {
  const seen = new Set<number>();
  for (let i = 0; i < values.length && seen.size < least; i++) seen.add(values[i]!);
  return seen.size >= least;
}

/** Entry k of each belongs to the same change. */
interface Changes {
  /** Rows since the change before, the new value's last row not yet come. */
  readonly after: Int32Array;
  readonly by: Float64Array;
}

/** From each value to the next that differs; the first value of each run without NaN has no known beginning. */
function changesOf(values: Samples): Changes {
  const after = new Int32Array(values.length);
  const byHowMuch = new Float64Array(values.length);
  let count = 0;
  let since = -1;
  for (let i = 1; i < values.length; i++) {
    const by = values[i]! - values[i - 1]!;
    if (by === 0) continue;
    const isKnown = !Number.isNaN(by);
    if (since >= 0 && isKnown) {
      after[count] = i - since;
      byHowMuch[count++] = by;
    }
    since = isKnown ? i : -1;
  }
  return { after: after.subarray(0, count), by: byHowMuch.subarray(0, count) };
}

function heldByRegularity({ after, by }: Changes, jump: number): number | null {
  let jumps = 0;
  for (let k = 0; k < by.length; k++) if (Math.abs(by[k]!) > jump) jumps++;
  return jumps >= jumpShare * by.length ? commonLength(after) : null;
}

function heldByStops({ after, by }: Changes, jump: number): number | null {
  const isBetween = (k: number) => Math.abs(by[k]!) > jump && (by[k]! > 0 ? by[k - 1]! : -by[k - 1]!) > jump;
  let ways = 0;
  let stops = 0;
  for (let k = 1; k < by.length; k++) {
    if (!isBetween(k)) continue;
    ways++;
    if (after[k]! > 1) stops++;
  }
  const isHeld = stops >= enough.stops && stops >= stopShare * ways;
  return isHeld ? commonLength(after.filter((_, k) => k > 0 && isBetween(k))) : null;
}

/**
 * The longest cadence that its own changes allow: bounds must not be too narrow. What is held for so many rows may be told as
 * up to twice as long, so half of it is the shortest refresh. What never changes contradicts none.
 */
function heldAlike({ after }: Changes, cadences: readonly number[]): number | null {
  const short = after.slice().sort()[Math.floor(0.1 * Math.max(0, after.length - 1))] ?? Number.POSITIVE_INFINITY;
  return cadences.find((cadence) => short >= 2 && 2 * short >= cadence) ?? null;
}

/** The ninetieth of a hundred lengths that are one turn or several, or at most twice the tenth; null where they differ more, or are of one row. */
function commonLength(lengths: Int32Array): number | null {
  if (isBrief(lengths)) return null;
  const sorted = lengths.slice().sort();
  const [short, long] = [0.1, 0.9].map((share) => sorted[Math.floor(share * (sorted.length - 1))]!) as [number, number];
  if (short < 2) return null;
  return inTurn(Array.from(sorted), short) ?? (long <= 2 * short ? long : null);
}

/** Whether more than a tenth are of one row, as in most recordings: told without putting them in order. */
function isBrief(lengths: Int32Array): boolean {
  const most = Math.floor(0.1 * (lengths.length - 1));
  let brief = 0;
  for (let k = 0; k < lengths.length && brief <= most; k++) if (lengths[k]! < 2) brief++;
  return brief > most;
}

/** Renewals that bring the same value again make a stay a whole number of turns: then the turn is as long as the short ones. */
function inTurn(sorted: readonly number[], short: number): number | null {
  if (short < 3) return null;
  const long = Math.ceil(1.3 * short);
  const fits = sorted.filter((rows) => {
    const turns = Math.max(1, Math.round(rows / (1.1 * short)));
    return rows >= turns * short && rows <= turns * long;
  });
  return fits.length >= stopShare * sorted.length ? sorted.findLast((rows) => rows <= long)! : null;
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
