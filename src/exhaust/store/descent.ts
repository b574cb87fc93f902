// Downhill from a guess: Levenberg and Marquardt's steps for squares of errors that are weighed down where they are large.

import type { Fit, Guess } from "../terms/store-study.ts";
import { driveBeside, rearCourse } from "./forward.ts";
import { misfitOf, type Rows } from "./misfit.ts";
import type { Rig } from "./rig.ts";
import { solved } from "./solved.ts";
import type { Unknown } from "./unknowns.ts";

export interface Task {
  readonly rig: Rig;
  readonly rows: Rows;
  readonly unknowns: readonly Unknown[];
  readonly space: Space;
}

/** Room that is written anew in every round: a descent has some hundred of them, over thousands of rows. */
interface Space {
  /** Each row's error, in usual errors, and how it counts. */
  readonly errors: Float64Array;
  readonly weights: Float64Array;
  /** Change of each row's error for each unit of an unknown's scale: one for each unknown; and one of them weighed. */
  readonly onRows: readonly Float64Array[];
  readonly weighed: Float64Array;
}

/**
 * Errors of a model that is wrong go together: a long recording says less than the number of its rows. What is unlikely beforehand
 * counts once for so many of them (own choice), else it would say nothing beside a thousand rows.
 */
const rowsOfOne = 400;

export function taskOf(rig: Rig, rows: Rows, unknowns: readonly Unknown[]): Task {
  const forRows = () => new Float64Array(rows.at.length);
  const space = { errors: forRows(), weights: forRows(), weighed: forRows(), onRows: unknowns.map(forRows) };
  const share = Math.sqrt(Math.max(1, rows.counts.reduce((sum, counts) => sum + counts, 0) / rowsOfOne));
  const weighed = unknowns.map((one) => ({
    ...one,
    off: (value: number, guess: Guess) => share * one.off(value, guess),
  }));
  return { rig, rows, unknowns: weighed, space };
}

/** What a guess costs; Infinity at once where that is surely no less than `below`, as most guesses are given up. */
export function costOf({ rig, rows, unknowns }: Task, guess: Guess, below = Infinity): number {
  let sum = 0;
  for (const { name, off } of unknowns) sum += off(guess[name], guess) ** 2;
  if (sum >= below) return Infinity;
  return sum + misfitOf(rows, rearCourse(rig, guess), below - sum);
}

/** Tries in one direction, each with shorter steps. */
const tries = 3;
/** Less gained than this in a round, of the cost, is not gone on for. */
const leastGain = { plain: 0.02, share: 0.0005 } as const;

/**
 * @param rounds  of looking at the effect of every unknown, at most.
 * @returns the start itself where no step leads down.
 *
 * Source: Levenberg, Q. Appl. Math. 2 (1944) 164; Marquardt, J. SIAM 11 (1963) 431 (from memory). The weights
 * 1 / (1 + r²) are those of least squares weighed anew for Cauchy's distribution.
 */
export function descend(task: Task, start: Guess, rounds: number): Fit {
  let found: Fit = { guess: start, cost: costOf(task, start) };
  let damping = 0.03;
  for (let round = 0; round < rounds; round++) {
    const before = found.cost;
    const { matrix, slope } = normalEquations(task, found.guess);
    for (let k = 0; k < tries; k++) {
      const guess = stepped(task, found.guess, solved(matrix, slope, damping));
      const cost = costOf(task, guess, found.cost);
      if (cost < found.cost) {
        found = { guess, cost };
        damping = Math.max(1e-3, damping / 5);
        break;
      }
      damping *= 8;
    }
    if (before - found.cost < leastGain.plain + leastGain.share * before) break;
  }
  return found;
}

/** A step takes no unknown further than so many of its reaches. */
const mostReaches = 6;

function stepped({ unknowns }: Task, guess: Guess, step: Float64Array): Guess {
  const next: Record<string, number> = { ...guess };
  unknowns.forEach((unknown, k) => {
    const most = mostReaches * unknown.reach;
    next[unknown.name] = moved(unknown, guess[unknown.name], Math.max(-most, Math.min(step[k]!, most)));
  });
  return next as unknown as Guess;
}

const inScale = ({ isLog }: Unknown, value: number): number => (isLog ? Math.log(value) : value);
const outOfScale = ({ isLog }: Unknown, value: number): number => (isLog ? Math.exp(value) : value);

/** By so much in the unknown's own scale, and not beyond where it may lie. */
function moved(unknown: Unknown, value: number, by: number): number {
  return Math.max(unknown.low, Math.min(outOfScale(unknown, inScale(unknown, value) + by), unknown.high));
}

/** J'WJ and -J'Wr: rows by their counts and 1 / (1 + r²), what is unlikely beforehand as so many rows more. */
function normalEquations(task: Task, guess: Guess): { matrix: Float64Array[]; slope: Float64Array } {
  const { unknowns, space } = task;
  const { errors, onRows } = space;
  errorsOf(task, guess, errors);
  const offs = offsOf(task, guess);
  const others = unknowns.map((unknown) => movedOn(unknown, guess));
  driveBeside(task.rig, [guess, ...others]);
  const onOffs = unknowns.map((unknown, k) => {
    const by = inScale(unknown, others[k]![unknown.name]) - inScale(unknown, guess[unknown.name]);
    return effectOf(task, others[k]!, by, { offs, into: onRows[k]! });
  });
  weigh(task.rows, space);
  const matrix = unknowns.map(() => new Float64Array(unknowns.length));
  const slope = new Float64Array(unknowns.length);
  for (let a = 0; a < unknowns.length; a++) {
    const weighed = product(onRows[a]!, space.weights, space.weighed);
    const row = matrix[a]!;
    for (let b = a; b < unknowns.length; b += together) dots(weighed, onRows, b, row);
    for (let b = a; b < unknowns.length; b++) {
      row[b]! += dot(onOffs[a]!, onOffs[b]!);
      matrix[b]![a] = row[b]!;
    }
    slope[a] = -dot(weighed, errors) - dot(onOffs[a]!, offs);
  }
  return { matrix, slope };
}

function weigh({ counts }: Rows, { errors, weights }: Space): void {
  for (let i = 0; i < errors.length; i++) weights[i] = counts[i]! / (1 + errors[i]! * errors[i]!);
}

function product(one: Float64Array, other: Float64Array, into: Float64Array): Float64Array {
  for (let i = 0; i < into.length; i++) into[i] = one[i]! * other[i]!;
  return into;
}

function errorsOf({ rig, rows }: Task, guess: Guess, into: Float64Array): void {
  misfitOf(rows, rearCourse(rig, guess), Infinity, into);
}

const offsOf = ({ unknowns }: Task, guess: Guess): Float64Array =>
  Float64Array.from(unknowns, ({ name, off }) => off(guess[name], guess));

/** The guess with one unknown moved by its reach; down where it may go no further up. */
function movedOn(unknown: Unknown, guess: Guess): Guess {
  const value = guess[unknown.name];
  const up = moved(unknown, value, unknown.reach);
  return { ...guess, [unknown.name]: up === value ? moved(unknown, value, -unknown.reach) : up };
}

/**
 * What an unknown does, by the difference that it makes.
 *
 * @param other  the guess with that one moved, `by` so much in its scale.
 * @param into   what it does to each row, with `space.errors` as of the guess.
 * @returns what it does to each unknown's `off`.
 */
function effectOf(
  task: Task,
  other: Guess,
  by: number,
  { offs, into }: { readonly offs: Float64Array; readonly into: Float64Array },
): Float64Array {
  errorsOf(task, other, into);
  changeSince(task.space.errors, by, into);
  const onOffs = offsOf(task, other);
  changeSince(offs, by, onOffs);
  return onOffs;
}

function changeSince(before: Float64Array, by: number, then: Float64Array): void {
  for (let i = 0; i < then.length; i++) then[i] = (then[i]! - before[i]!) / by;
}

/** So many sums are made at once: each waits for its own last addition only. */
const together = 4;

/** Products of `one` with `together` of the others from `first` on, as far as there are; into the same places of `into`. */
function dots(one: Float64Array, others: readonly Float64Array[], first: number, into: Float64Array): void {
  const last = others.length - 1;
  const a = others[first]!;
  const b = others[Math.min(first + 1, last)]!;
  const c = others[Math.min(first + 2, last)]!;
  const d = others[Math.min(first + 3, last)]!;
  let ofA = 0;
  let ofB = 0;
  let ofC = 0;
  let ofD = 0;
  for (let i = 0; i < one.length; i++) {
    const by = one[i]!;
    ofA += by * a[i]!;
    ofB += by * b[i]!;
    ofC += by * c[i]!;
    ofD += by * d[i]!;
  }
  into.set([ofA, ofB, ofC, ofD].slice(0, last - first + 1), first);
}

function dot(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < one.length; i++) sum += one[i]! * other[i]!;
  return sum;
}
