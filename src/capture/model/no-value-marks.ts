// Numbers that a recorder writes where it has no value.

import type { Samples } from "../../signal/series/series.ts";
import type { Channel } from "./capture.ts";

export interface NoValueMark {
  /** V. */
  readonly volts: number;
  /** As the file writes it. */
  readonly written: number;
  readonly count: number;
}

type Marked = Pick<Channel, "role" | "unit" | "fileUnit">;

/** Kinds of numbers that are told apart: more are no marks. */
const mostKinds = 100_000;

/** An oxygen sensor never leaves -2 to 5 V: the same number far outside, again and again, stands for "no value". */
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
    if (!(value < -2 || value > 5)) continue;
    const count = counts.get(value) ?? 0;
    if (count > 0 || counts.size < mostKinds) counts.set(value, count + 1);
  }
}

export function markIn({ fileUnit }: Marked, counts: ReadonlyMap<number, number>): NoValueMark | null {
  const [[value, count] = [0, 0]] = [...counts].sort((a, b) => b[1] - a[1]);
  if (count < 2) return null;
  const volts = Number(value.toPrecision(6));
  return { volts, written: /^mv$/i.test(fileUnit) ? Number((1000 * value).toPrecision(6)) : volts, count };
}
