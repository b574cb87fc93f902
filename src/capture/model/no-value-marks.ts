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

/** Kinds of numbers that are told apart: more are no marks. */
const mostKinds = 100_000;

/** What a sensor can give by itself, V; beyond it by a lead the wrong way round, an offset or a shunt. */
export const usual = { least: -0.25, most: 1.2 };
const possible = { least: -2, most: 5 };
/** A number that is no mark has others near it, V. */
const apart = 0.3;
const leastOften = 3;
/** What 255, all bits set, reads as where a byte carries 0.005 V a step: SAE J1979, service $01, parameters $14 to $1B. */
const allBitsSet = 1.275;

/** What of a channel's samples no oxygen sensor gives, by number, and how many are as a sensor gives them. */
export class MarkTally {
  private readonly channel: Pick<Channel, "role" | "unit" | "fileUnit">;
  private readonly odd = new Map<number, number>();
  private usual = 0;

  constructor(channel: Pick<Channel, "role" | "unit" | "fileUnit">) {
    this.channel = channel;
  }

  add(samples: Samples): void {
    const { role, unit } = this.channel;
    if ((role !== "front-o2" && role !== "rear-o2") || unit !== "V") return;
    for (let i = 0; i < samples.length; i++) {
      const value = samples[i]!;
      if (value >= usual.least && value <= usual.most) this.usual++;
      if (!(value < usual.least || value > usual.most)) continue;
      const count = this.odd.get(value) ?? 0;
      if (count > 0 || this.odd.size < mostKinds) this.odd.set(value, count + 1);
    }
  }

  /** A voltage that a lead may carry and that the channel never leaves is what was measured there, however odd. */
  mark(): NoValueMark | null {
    const [[value, count] = [0, 0]] = [...this.odd].sort((a, b) => b[1] - a[1]);
    const volts = Number(value.toPrecision(6));
    const isFar = value < possible.least || value > possible.most;
    const isAlone = [...this.odd.keys()].every((other) => other === value || Math.abs(other - value) > apart);
    if (count < (isFar ? 2 : leastOften) || (!isFar && (!isAlone || this.odd.size > 2))) return null;
    if (!isFar && this.usual === 0 && volts !== allBitsSet) return null;
    const isInMillivolts = /^mv$/i.test(this.channel.fileUnit);
    return { value, volts, written: isInMillivolts ? Number((1000 * value).toPrecision(6)) : volts, count };
  }
}

/**
 * An oxygen sensor never leaves -2 to 5 V: the same number far outside, again and again, stands for "no value". Nearer by, one
 * number again and again, and nothing else beside it, is a mark as well: a signal that went there would pass through others.
 */
export function noValueMark(channel: Channel): NoValueMark | null {
  const tally = new MarkTally(channel);
  tally.add(channel.series.samples);
  return tally.mark();
}
