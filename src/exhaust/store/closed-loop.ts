// What closed loop offers, as far as the two sensors show it.

import type { Seconds } from "../../signal/numbers/units.ts";
import { runsWhere } from "./cells.ts";
import { fuel, type StoreRecord } from "./record.ts";

/** Closed loop balances over about this long, s. */
const balance: Seconds = 8;
/** What leaves the catalyst shows so much later, s: gas on the way and the sensor's lag, roughly. Own choice. */
const ahead: Seconds = 0.3;

/** Front less its own middle over `balance` about each cell; 0 where it tells nothing. */
export function centredOf({ front: { lean }, rule, grid: { step } }: StoreRecord): Float64Array {
  const count = lean.length;
  const sums = new Float64Array(count + 1);
  const counts = new Float64Array(count + 1);
  const after = settling(rule, step);
  for (let i = 0; i < count; i++) {
    const counted = rule[i] === fuel.loop && lean[i]! - lean[i]! === 0 && after[i] === 0;
    sums[i + 1] = sums[i]! + (counted ? lean[i]! : 0);
    counts[i + 1] = counts[i]! + (counted ? 1 : 0);
  }
  const all = sums[count]! / Math.max(1, counts[count]!);
  const half = Math.round(balance / 2 / step);
  return lean.map((value, i) => {
    const [from, to] = [Math.max(0, i - half), Math.min(count, i + half)];
    const known = counts[to]! - counts[from]!;
    const middle = known > half / 2 ? (sums[to]! - sums[from]!) / known : all;
    return value - value === 0 ? value - middle : 0;
  });
}

/** V of the rear `ahead` of each cell, between rows as at the last for a second; NaN where it tells nothing. */
export function shownBy({ rear, weight, grid: { step, count } }: StoreRecord): Float64Array {
  const shown = new Float64Array(count).fill(NaN);
  const later = Math.round(ahead / step);
  let at = -1;
  for (let i = 0; i < count; i++) {
    if (rear[i]! - rear[i]! === 0) at = i;
    if (weight[i]! > 0 && at >= 0 && (i - at) * step < 1 && i >= later) shown[i - later] = rear[at]!;
  }
  return shown;
}

/** Cells within 3 s behind a cut or a pull: the loop is not yet in balance. */
function settling(rule: Uint8Array, step: Seconds): Uint8Array {
  const marks = new Uint8Array(rule.length);
  const reach = Math.round(3 / step);
  for (const [, to] of runsWhere(rule.length, (i) => rule[i] !== fuel.loop)) marks.fill(1, to, to + reach);
  return marks;
}
