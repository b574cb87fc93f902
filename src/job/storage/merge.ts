// Two tabs with the same job: neither may destroy what the other did. A three-way merge over the last common state.

import type { BenchState, Dimension, Job } from "../record/job.ts";

interface Named {
  readonly id: string;
}

/**
 * What both sides changed since `base`, together. Where both changed the same thing, the newer job wins; what one side
 * added stays, and what one side took out stays out unless the other changed it.
 */
export function mergeJobs(base: Job, mine: Job, theirs: Job): Job {
  const mineIsNewer = mine.changedAt >= theirs.changedAt;
  const pick = <T>(of: (job: Job) => T): T => choose(of(base), of(mine), of(theirs), mineIsNewer);
  return {
    ...pick((j) => j),
    name: pick((j) => j.name),
    notes: pick((j) => j.notes),
    vehicle: pick((j) => j.vehicle),
    changedAt: mineIsNewer ? mine.changedAt : theirs.changedAt,
    captures: mergeById(base.captures, mine.captures, theirs.captures, (b, m, t) => ({
      ...choose(b, m, t, mineIsNewer),
      bench: mergeBenches(b?.bench, m.bench, t.bench, mineIsNewer),
    })),
    exhibits: mergeById(base.exhibits, mine.exhibits, theirs.exhibits, (b, m, t) => choose(b, m, t, mineIsNewer)),
  };
}

/** The very bench of `mine` where nothing came from the other side: undo goes by identity. */
function mergeBenches(
  base: BenchState | undefined,
  mine: BenchState,
  theirs: BenchState,
  mineIsNewer: boolean,
): BenchState {
  const whole = choose(base, mine, theirs, mineIsNewer);
  const pickDimension = (b: Dimension | undefined, m: Dimension, t: Dimension) => choose(b, m, t, mineIsNewer);
  const dimensions = mergeById(base?.dimensions ?? [], mine.dimensions, theirs.dimensions, pickDimension);
  const merged = { ...whole, dimensions };
  return same(merged, mine) ? mine : merged;
}

/** The side that changed; the newer one when both did. */
function choose<T>(base: T | undefined, mine: T, theirs: T, mineIsNewer: boolean): T {
  if (same(mine, theirs) || same(theirs, base)) return mine;
  if (same(mine, base)) return theirs;
  return mineIsNewer ? mine : theirs;
}

function mergeById<T extends Named>(
  base: readonly T[],
  mine: readonly T[],
  theirs: readonly T[],
  both: (base: T | undefined, mine: T, theirs: T) => T,
): T[] {
  const before = byId(base);
  const there = byId(theirs);
  const here = byId(mine);
  const stays = (one: T) => !before.has(one.id) || !same(one, before.get(one.id));
  const kept = mine.flatMap((m) => {
    const t = there.get(m.id);
    if (t) return [both(before.get(m.id), m, t)];
    return stays(m) ? [m] : [];
  });
  return [...kept, ...theirs.filter((t) => !here.has(t.id) && stays(t))];
}

const byId = <T extends Named>(all: readonly T[]): ReadonlyMap<string, T> => new Map(all.map((one) => [one.id, one]));

/** Plain data, written by the same code: equal text is equal meaning. */
const same = (a: unknown, b: unknown): boolean => a === b || JSON.stringify(a) === JSON.stringify(b);
