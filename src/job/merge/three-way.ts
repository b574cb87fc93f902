// A three-way merge of plain values: what either side changed since both were the same, field by field.

import { mergeOrder } from "./order.ts";
import { keysOf, same } from "./same.ts";

/** What both sides were, if they ever were the same, and which of them wins where both changed the same field. */
export interface Origin<T> {
  readonly base: T | undefined;
  readonly mineWins: boolean;
}

export type Merge<T> = (origin: Origin<T>, mine: T, theirs: T) => T;

/** The side that changed; the winner where both did. One side may have taken it out: then it is undefined there. */
export function whole<T>({ base, mineWins }: Origin<T>, mine: T, theirs: T): T {
  if (same(mine, theirs) || same(theirs, base)) return mine;
  if (same(mine, base)) return theirs;
  return mineWins ? mine : theirs;
}

/** Only where both sides changed it is `both` asked; what one side took out stays out, unless the other changed it. */
function where<T>(origin: Origin<T>, mine: T | undefined, theirs: T | undefined, both: Merge<T>): T | undefined {
  const { base } = origin;
  if (same(mine, theirs) || same(theirs, base)) return mine;
  if (same(mine, base)) return theirs;
  if (mine === undefined || theirs === undefined) return mine ?? theirs;
  return both(origin, mine, theirs);
}

/** The rules for fields of T that are not merged as a whole. */
export type Fields<T> = { readonly [K in keyof T]?: Merge<NonNullable<T[K]>> };

/** Field by field; `mine` itself where nothing came from the other side. */
export function fields<T extends object>(rules: Fields<T>): Merge<T> {
  return ({ base, mineWins }, mine, theirs) => {
    const merged: Record<string, unknown> = {};
    for (const key of keysOf(mine, theirs)) {
      const of = (side: T | undefined) => (side as Record<string, unknown> | undefined)?.[key];
      const rule = (Object.hasOwn(rules, key) ? rules[key as keyof T] : undefined) ?? whole;
      const value = where({ base: of(base), mineWins }, of(mine), of(theirs), rule as Merge<unknown>);
      if (value !== undefined) merged[key] = value;
    }
    return same(merged, mine) ? mine : (merged as T);
  };
}

/** A record of any keys, each merged by itself. */
export function entries<T>(each: Merge<T>): Merge<Readonly<Record<string, T>>> {
  return ({ base, mineWins }, mine, theirs) => {
    const merged = keysOf(mine, theirs).flatMap((key) => {
      const value = where({ base: base?.[key], mineWins }, mine[key], theirs[key], each);
      return value === undefined ? [] : [[key, value] as const];
    });
    return Object.fromEntries(merged);
  };
}

/** A list whose entries are told apart by a key; its order is merged as well. Of entries with the same key, the last stands. */
export function list<T>(keyOf: (one: T) => string, each: Merge<T> = whole): Merge<readonly T[]> {
  const byKey = (all: readonly T[] | undefined) => new Map((all ?? []).map((one) => [keyOf(one), one] as const));
  return ({ base, mineWins }, mine, theirs) => {
    const [before, here, there] = [byKey(base), byKey(mine), byKey(theirs)];
    const merged = new Map<string, T>();
    for (const key of new Set([...here.keys(), ...there.keys()])) {
      const one = where({ base: before.get(key), mineWins }, here.get(key), there.get(key), each);
      if (one !== undefined) merged.set(key, one);
    }
    const rule = { stays: new Set(merged.keys()), mineWins };
    return mergeOrder([...before.keys()], [...here.keys()], [...there.keys()], rule).map((key) => merged.get(key)!);
  };
}

/** A list of names, none twice. */
export const names: Merge<readonly string[]> = list((name: string) => name);
