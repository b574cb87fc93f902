// What was measured on one recording, remembered with all that it depends on: after an edit only the rest is measured anew.

import type { LimitName, Limits } from "./limits.ts";

/**
 * Answers from memory where the inputs are the same objects or values and every limit that was looked at has the same
 * value; else does the work.
 *
 * @param what    names the work; inputs that are part of its name need not be given again.
 * @param inputs  what it depends on beside the recording and the limits.
 * @param work    must look at no other limits than it is given.
 */
export type Recall = <T>(what: string, inputs: readonly unknown[], limits: Limits, work: (limits: Limits) => T) => T;

/** Remembers nothing. */
export const anew: Recall = (_what, _inputs, limits, work) => work(limits);

/** The same memory, to which one answer is given from elsewhere: nothing is done for that one, and it is not kept. */
export const answering =
  (recall: Recall, what: string, answer: unknown): Recall =>
  <T>(asked: string, inputs: readonly unknown[], limits: Limits, work: (limits: Limits) => T): T =>
    asked === what ? (answer as T) : recall(asked, inputs, limits, work);

interface Known {
  readonly inputs: readonly unknown[];
  readonly used: ReadonlyMap<LimitName, number>;
  readonly answer: unknown;
}

/** So many answers are remembered; an hour's recording has some hundred stretches, each with two. */
const most = 2000;

/** A memory for one recording, as it is corrected. @returns the same answers as without it. */
export function remembering(): Recall {
  const known = new Map<string, readonly Known[]>();
  return <T>(what: string, inputs: readonly unknown[], limits: Limits, work: (limits: Limits) => T): T => {
    const alike = known.get(what) ?? [];
    const found = alike.find((one) => isAlike(one.inputs, inputs) && holds(one.used, limits));
    if (found) return found.answer as T;
    const used = new Map<LimitName, number>();
    const answer = work(watched(limits, used));
    // The newest few: undo goes back to what was measured before.
    known.delete(what);
    known.set(what, [{ inputs, used, answer }, ...alike].slice(0, 3));
    if (known.size > most) known.delete(known.keys().next().value!);
    return answer;
  };
}

const isAlike = (one: readonly unknown[], other: readonly unknown[]): boolean =>
  one.length === other.length && one.every((input, k) => Object.is(input, other[k]));

/** Looks at each of them: work within which this is asked depends on them too. */
const holds = (used: ReadonlyMap<LimitName, number>, limits: Limits): boolean =>
  [...used].every(([name, value]) => limits[name] === value);

/** The limits, with a note of each that is looked at. */
function watched(limits: Limits, used: Map<LimitName, number>): Limits {
  return new Proxy(limits, {
    get(all, name) {
      const value = all[name as LimitName];
      used.set(name as LimitName, value);
      return value;
    },
  });
}
