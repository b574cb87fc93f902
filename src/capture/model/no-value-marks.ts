// Numbers that a recorder writes where it has no value.

import type { Samples } from "../../signal/series/series.ts";
import type { Channel } from "./capture.ts";

export interface NoValueMark {
  /** V. */
  readonly volts: number;
  /** As the samples hold it. */
  readonly value: number;
  /** As the file writes it. */
  readonly written: number;
  readonly count: number;
}

type Marked = Pick<Channel, "role" | "unit" | "fileUnit">;

/** Kinds of numbers that are told apart: more are no marks. */
const mostKinds = 100_000;

/** What a sensor can give by itself, V; beyond it by a lead the wrong way round, an offset or a shunt. */
const usual = { least: -0.25, most: 1.2 };
const possible = { least: -2, most: 5 };
/** A number that is no mark has others near it, V. */
const apart = 0.3;
const leastOften = 3;

/**
 * An oxygen sensor never leaves -2 to 5 V: the same number far outside, again and again, stands for "no value". Nearer by, one
 * number again and again, and nothing else beside it, is a mark as well: a signal that went there would pass through others.
 */
export function noValueMark(channel: Channel): NoValueMark | null {
  const counts = new Map<number, number>();
  countMarks(channel, channel.series.samples, counts);
  return markIn(channel, counts);
}

/** Adds to `counts`, by number, what no oxygen sensor gives. */
export function countMarks({ role, unit }: Marked, samples: Samples, counts: Map<number, number>): void {
  if ((role !== "front-o2" && role !== "rear-o2") || unit !== "V") return;
  for (let i = 0; i < samples.length; i++) {
    const value = samples[i]!;
    if (!(value < usual.least || value > usual.most)) continue;
    const count = counts.get(value) ?? 0;
    if (count > 0 || counts.size < mostKinds) counts.set(value, count + 1);
  }
}

export function markIn({ fileUnit }: Marked, counts: ReadonlyMap<number, number>): NoValueMark | null {
  const [[value, count] = [0, 0]] = [...counts].sort((a, b) => b[1] - a[1]);
  const isFar = value < possible.least || value > possible.most;
  const isAlone = [...counts.keys()].every((other) => other === value || Math.abs(other - value) > apart);
  if (count < (isFar ? 2 : leastOften) || (!isFar && (!isAlone || counts.size > 2))) return null;
  const volts = Number(value.toPrecision(6));
  return { value, volts, written: /^mv$/i.test(fileUnit) ? Number((1000 * value).toPrecision(6)) : volts, count };
}
