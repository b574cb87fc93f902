// Numbers that a recorder writes where it has no value.

import type { Channel } from "./capture.ts";

export interface NoValueMark {
  /** V. */
  readonly volts: number;
  /** As the file writes it. */
  readonly written: number;
  readonly count: number;
}

/** An oxygen sensor never leaves -2 to 5 V: the same number far outside, again and again, stands for "no value". */
export function noValueMark({ role, unit, fileUnit, series: { samples } }: Channel): NoValueMark | null {
  if ((role !== "front-o2" && role !== "rear-o2") || unit !== "V") return null;
  const counts = new Map<number, number>();
  for (let i = 0; i < samples.length; i++) {
    const value = samples[i]!;
    if (value < -2 || value > 5) counts.set(value, (counts.get(value) ?? 0) + 1);
  }
  const [[value, count] = [0, 0]] = [...counts].sort((a, b) => b[1] - a[1]);
  if (count < 2) return null;
  const volts = Number(value.toPrecision(6));
  return { volts, written: /^mv$/i.test(fileUnit) ? Number((1000 * value).toPrecision(6)) : volts, count };
}
