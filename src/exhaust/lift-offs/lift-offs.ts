// All lift-offs of a capture: found by rule, put right by hand, and summed up.

import { medianOf } from "../../signal/combining/combine.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import type { AnalysisChoices, Awakening, LiftOff, LiftOffEdit, LiftOffSummary } from "../terms/analysis.ts";
import type { BankChannels } from "../terms/channels.ts";
import type { Limits } from "../terms/limits.ts";
import { anew, type Recall } from "../terms/remembered.ts";
import { type Closing, closingsOf } from "./closings.ts";
import { cutFactsOf } from "./fuel-cut.ts";
import { groundOffset, levelled } from "./ground-offset.ts";
import { type CutProof, frontRuleOf, type LeanSpell, leanSpells } from "./lean-spells.ts";
import { behind, type LiftOffScene, measureLiftOff } from "./lift-off.ts";
import { rearSceneOf } from "./rear-story.ts";
import { outstanding } from "./stands-out.ts";
import { unmeasuredClosings } from "./unmeasured.ts";

/** How far from where the hand put it a fall of the front is looked for, s. */
const handReach = 2;

export interface LiftOffInput {
  readonly channels: BankChannels;
  readonly limits: Limits;
  readonly edits: readonly LiftOffEdit[];
  readonly rearAwake: Awakening | null;
  readonly pipe: AnalysisChoices["pipe"] | undefined;
  readonly recall?: Recall;
}

export function liftOffsOf({ edits, ...input }: LiftOffInput): LiftOff[] {
  const { limits, rearAwake, pipe, recall = anew } = input;
  const placing = edits.filter(({ kind }) => kind === "add" || kind === "move");
  const inputs = [rearAwake, JSON.stringify([pipe, placing])];
  const placed = recall("lift-offs", inputs, limits, (used) => placedOf({ ...input, limits: used }, placing));
  return [...edits.reduce(mark, placed)].sort((a, b) => a.at - b.at);
}

/** Those found, and those added and moved by hand. */
function placedOf(
  { channels: recorded, limits, rearAwake, pipe }: Omit<LiftOffInput, "edits">,
  placing: readonly LiftOffEdit[],
): readonly LiftOff[] {
  const closings = closingsOf(recorded, limits);
  const offset = groundOffset(recorded, closings, limits);
  const channels = withoutOffset(recorded, offset);
  const front = frontRuleOf(channels, limits);
  if (!front) return [];
  const rear = rearSceneOf(channels, limits);
  const isCut: CutProof = (lean) => {
    const { fuelCut, throttleClosed, isRefuted } = cutFactsOf(channels, lean, limits);
    if (isRefuted) return false;
    const isShown = fuelCut === "proven" || (fuelCut === "likely" && fills(closings, lean));
    return isShown && throttleClosed !== null ? true : null;
  };
  const spells = leanSpells(front, limits, isCut);
  const standsOut = outstanding(front, spells, limits);
  const scene: LiftOffScene = { channels, limits, front, rear, rearAwake, pipe, offset, standsOut };
  const found = spells.filter((spell) => spell.isLiftOff);
  const measured = [
    ...found.map((spell) => measureLiftOff(scene, spell, { id: "", origin: "found" })),
    ...unmeasuredClosings(scene, closings, found),
  ].sort((a, b) => a.at - b.at);
  const events = measured.map((event, k): LiftOff => ({ ...event, id: `${k + 1}` }));
  return placing.reduce((list, edit) => place(list, edit, scene, spells), events);
}

const withoutOffset = (channels: BankChannels, offset: number): BankChannels => ({
  ...channels,
  front: channels.front && levelled(channels.front, offset),
  rear: channels.rear && levelled(channels.rear, offset),
});

/** Whether the front was lean for as long as the throttle stayed closed: no loop switched meanwhile. */
function fills(closings: readonly Closing[], { from, to }: { readonly from: number; readonly to: number }): boolean {
  return closings.some(({ at, until }) => from < until && to > at && from - at < 2 * behind && to > until - behind);
}

/** Adds and moves. A move of an event that is not there changes nothing. */
function place(
  list: readonly LiftOff[],
  edit: LiftOffEdit,
  scene: LiftOffScene,
  spells: readonly LeanSpell[],
): LiftOff[] {
  const known = list.find(({ id }) => id === edit.id);
  if (edit.kind !== "add" && (edit.kind !== "move" || !known)) return [...list];
  const others = list.filter(({ id }) => id !== edit.id);
  const spell = nearest(spells, edit.at);
  if (!spell) return [...others, ...(known ? [{ ...known, rejected: nothingThere, setAside: "rule" as const }] : [])];
  return [...others, measureLiftOff(scene, spell, { id: edit.id, origin: "user" })];
}

/** Sets aside, or lets count again what hand or rule set aside. */
function mark(list: readonly LiftOff[], edit: LiftOffEdit): readonly LiftOff[] {
  return list.map((one): LiftOff => {
    if (one.id !== edit.id) return one;
    if (edit.kind === "reject") return { ...one, rejected: edit.because || "rejected by hand", setAside: "hand" };
    if (edit.kind === "accept") return { ...one, rejected: null, setAside: null, valid: true };
    return one;
  });
}

const nothingThere = "the front does not fall within 2 s of where it was moved to";

function nearest(spells: readonly LeanSpell[], at: number): LeanSpell | null {
  const near = spells.filter(({ fall }) => Math.abs(fall.time - at) <= handReach);
  return near.reduce<LeanSpell | null>(
    (best, spell) => (!best || Math.abs(spell.fall.time - at) < Math.abs(best.fall.time - at) ? spell : best),
    null,
  );
}

/** Over the events that count; where none does, over those that only the rules set aside; null when no delay is known. */
export function summariseLiftOffs(liftOffs: readonly LiftOff[]): LiftOffSummary | null {
  const timed = (by: LiftOff["setAside"]) =>
    liftOffs.filter(({ setAside, delay }) => setAside === by && delay.grade !== "not-resolvable");
  const counted = timed(null);
  const counting = counted.length > 0 ? counted : timed("rule");
  if (counting.length === 0) return null;
  const values = counting.filter((one) => one.delay.grade === "measured").map((one) => one.delay.value!);
  const spread = values.length < 2 ? null : Math.max(...values) - Math.min(...values);
  const delay = medianOf(
    counting.map((one) => one.delay),
    "s",
  );
  const oxygen = counting.map((one) => one.storedOxygen).filter(({ grade }) => grade !== "not-resolvable");
  const again = counting.map((one) => one.richAgain).filter(({ grade }) => grade !== "not-resolvable");
  return {
    delay,
    storedOxygen: oxygen.length > 0 ? medianOf(oxygen, "g") : counting[0]!.storedOxygen,
    richAgain: again.length > 0 ? medianOf(again, "s") : counting[0]!.richAgain,
    spread,
    more: moreNeeded(delay, counting.length),
  };
}

/** Three at least; where the bounds are still half as wide as the value, as many again: they shrink with the root. */
function moreNeeded({ value, low, high }: Reading, count: number): number {
  if (count < 3) return 3 - count;
  if (value === null || low === null || high === null || high - low <= 0.5 * value) return 0;
  return Math.min(6, count * 3);
}
