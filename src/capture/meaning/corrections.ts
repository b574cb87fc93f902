// What the user's corrections make of a channel: its role, bank and unit, and what its samples are to be.

import type { Channel } from "../model/capture.ts";
import type { Corrections } from "../model/take.ts";
import { conversionOf } from "./quantities.ts";

/** Shown and measured = recorded * gain + offset. */
export interface Correction {
  readonly gain: number;
  readonly offset: number;
}

type Labels = Pick<Channel, "role" | "bank" | "unit">;

/** Role, bank and unit in force. */
export function labelsIn(corrections: Corrections, { id, role, bank, unit }: Labels & Pick<Channel, "id">): Labels {
  const said = corrections[id];
  return {
    role: said?.role ?? role,
    bank: said?.bank ?? bank,
    unit: said?.unit === undefined ? unit : conversionOf(said.unit).unit,
  };
}

/** Gain and offset in force, the unit's included where the user says another than the one it was read in. */
export function correctionIn(
  corrections: Corrections,
  { id, assumedUnit, fileUnit }: Pick<Channel, "id" | "assumedUnit" | "fileUnit">,
): Correction {
  const { gain, offset, unit } = corrections[id] ?? none;
  if (unit === undefined) return { gain, offset };
  const reread = rereading(assumedUnit ?? fileUnit, unit);
  return { gain: reread.gain * gain, offset: reread.offset * gain + offset };
}

const none: Correction & { readonly unit?: string } = { gain: 1, offset: 0 };

/** Lowest and highest as corrected; a negative gain turns them round. */
export function correctedBounds([low, high]: readonly [number, number], { gain, offset }: Correction) {
  const [one, other] = [low * gain + offset, high * gain + offset];
  return [Math.min(one, other), Math.max(one, other)] as const;
}

/** What makes samples read in unit `was` the samples they are when read in unit `is`. */
function rereading(was: string, is: string): Correction {
  const [from, to] = [conversionOf(was), conversionOf(is)];
  return {
    gain: ((from.over / from.times) * to.times) / to.over,
    offset: ((from.zero - to.zero) * to.times) / to.over,
  };
}
