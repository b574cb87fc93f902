// What the front alone tells of a fuel cut, where nothing was recorded that moves with the foot: air is leaner than any mixture
// that a loop asks for, and a pull is rich for longer than a loop is.

import { within } from "../../signal/series/reel.ts";
import type { Series } from "../../signal/series/series.ts";
import { percentile } from "../../signal/statistics/statistics.ts";
import type { Limits } from "../terms/limits.ts";
import type { FrontRule, LeanSpell } from "./lean-spells.ts";

/** Fewer of the loop's own lean spells than this are no loop to compare with. Own choice. */
const enough = 3;
/**
 * Nernst's law at 600 °C: 101 mV at 0.1 % of oxygen, 57 mV at 1 % (lambda of about 1.05), 0 in air. A loop's lean spells hold
 * some tenths of a percent, so that air stands lower than those by more than a lean spell of the mixture does. V.
 */
const airBelow = 0.03;
/** Of the loop's lean spells, the lowest tenth tells how lean it gets. Own choice. */
const lowest = 0.1;
/** Seconds after the fall until the sensor has settled. */
const settles = 0.5;
/** Rich for so many times as long as the loop around it: somebody pulled. Own choice. */
const longer = 1.5;

/** Whether a lean spell is told from the loop's own by the front alone. True where no loop was recorded to compare with. */
export function outstanding(
  rule: FrontRule,
  spells: readonly LeanSpell[],
  limits: Limits,
): (spell: LeanSpell) => boolean {
  const loop = spells.filter(({ isLiftOff, rise }) => !isLiftOff && rise !== null);
  if (rule.sign < 0 || loop.length < enough) return () => true;
  const lows = loop.map((spell) => depthOf(rule.series, spell, 0));
  const leanest = percentile(Float64Array.from(lows), lowest);
  const isDeep = (spell: LeanSpell) => depthOf(rule.series, spell, 0.5) < leanest - airBelow;
  const deep = new Set(spells.filter((spell) => spell.isLiftOff && isDeep(spell)));
  const afterCut = new Set([...deep].map(({ rise }) => rise?.time));
  const others = spells.filter((one) => !deep.has(one) && !afterCut.has(one.fall.time - one.richFor));
  return (spell) => isDeep(spell) || richLonger(spell, others, limits);
}

/** How low the front stood: share 0 the lowest, 0.5 the middle of what was settled. */
function depthOf(series: Series, { fall, end }: LeanSpell, share: number): number {
  const from = share === 0 ? fall.time : Math.min(fall.time + settles, (fall.time + end) / 2);
  const { samples } = within(series, from, end);
  return percentile(samples, share);
}

/** Rich before it for longer than before any other lean spell around it; what refills after a cut left out. */
function richLonger(spell: LeanSpell, others: readonly LeanSpell[], limits: Limits): boolean {
  if (spell.richFor < limits.richPlateau) return false;
  const near = others.filter((one) => one !== spell && Math.abs(one.fall.time - spell.fall.time) < limits.cutMemory);
  return near.length >= enough && spell.richFor > longer * Math.max(...near.map(({ richFor }) => richFor));
}

/** For people: why a spell of which nothing stands out counts for nothing. */
export const mayBeLean =
  "nothing that was recorded shows the foot being lifted, and the front reads no leaner than in the loop's own lean spells: it may be a lean spell of the mixture";
