// Everything measured on one bank of a capture: the one entry that the page's worker and the command line share.

import type { Capture } from "../capture/model/capture.ts";
import type { Seconds } from "../signal/numbers/units.ts";
import { countOf, timeAt } from "../signal/series/series.ts";
import { flowPicture } from "./activity/flow-picture.ts";
import { judgeStretch } from "./activity/judged-stretches.ts";
import { measureSides, switchingOnly } from "./activity/pair.ts";
import { visitedOf } from "./conditions/visited.ts";
import { findingsOf } from "./findings/findings.ts";
import { liftOffsOf, summariseLiftOffs } from "./lift-offs/lift-offs.ts";
import { findStretches } from "./running/stretches.ts";
import { warmthOf } from "./running/warmth.ts";
import { awakeningOf } from "./sensors/awake.ts";
import { storeOf } from "./store/store.ts";
import type { Analysis, AnalysisChoices, LiftOff, Span } from "./terms/analysis.ts";
import { bankOf, channelsOf } from "./terms/channels.ts";
import { limitsInForce } from "./terms/limits.ts";

/**
 * Pure. What a recording cannot support is refused reading by reading, with the reason; nothing is thrown on data.
 *
 * @param onShare  told how much is done, 0 … 1, where that takes long.
 */
export function analyse(
  capture: Capture,
  choices: AnalysisChoices = {},
  onShare: (share: number) => void = () => {},
): Analysis {
  const limits = limitsInForce(choices.limits);
  const bank = bankOf(capture, choices.bank);
  const channels = channelsOf(capture, bank);
  const span = spanOf(capture);
  const front = channels.front ?? channels.frontLambda;
  const awake = {
    front: front && awakeningOf(front, limits),
    rear: channels.rear && awakeningOf(channels.rear, limits),
  };
  const warmth = warmthOf(channels, awake.front, limits);
  const edits = choices.edits ?? [];
  const liftOffs = liftOffsOf({ channels, limits, edits, rearAwake: awake.rear, pipe: choices.pipe });
  onShare(done.liftOffs);
  const cuts = liftOffs.filter((one) => one.setAside !== "hand").map(cutSpan);
  const plain = findStretches({ channels, span, warmth, cuts, limits }, choices.stretches);
  const switching = switchingOnly(channels);
  const between = (from: number, to: number) => (share: number) => onShare(from + (to - from) * share);
  const judged = (time: Seconds) => done.liftOffs + (done.stretches - done.liftOffs) * shareBefore(time, span);
  const stretches = plain.map((one) => {
    const onJudged = between(judged(one.from), judged(one.to));
    return judgeStretch(one, { channels: switching, ...awake, warmth, limits }, onJudged);
  });
  onShare(done.stretches);
  const onSides = between(done.stretches, done.whole);
  const whole = measureSides(switching, { span, limits, leastCycles: 1, onShare: onSides });
  onShare(done.whole);
  const visited = visitedOf(choices.frame ?? {}, { channels, span, limits });
  const storeStudy = storeOf({
    channels,
    span,
    warmth,
    awake,
    limits,
    ...(choices.litres ? { litres: choices.litres } : {}),
  });
  const measured = {
    bank,
    sensors: { front: whole.front?.measured.sensor ?? null, rear: whole.rear?.measured.sensor ?? null },
    stretches,
    whole: whole.activity,
    liftOffs,
    liftOff: summariseLiftOffs(liftOffs),
    awake,
    warmth,
    flowPicture: flowPicture(switching, stretches, limits),
    ...(visited ? { visited } : {}),
    store: storeStudy?.reading ?? null,
    storeStudy,
  };
  return { ...measured, findings: findingsOf({ channels, measured, limits, span, byHand: choices.byHand }) };
}

/** What is done of the work, roughly: told of a capture of some million samples. */
const done = { liftOffs: 0.1, stretches: 0.52, whole: 0.9 } as const;

const shareBefore = (time: Seconds, { from, to }: Span): number => (time - from) / Math.max(to - from, 1e-6);

/** From the first sample of any channel to just after the last. */
export function spanOf(capture: Capture): Span {
  const filled = capture.channels.filter(({ series }) => countOf(series.time) > 0);
  if (filled.length === 0) return { from: 0, to: 0 };
  const from = Math.min(...filled.map(({ series }) => timeAt(series.time, 0)));
  const to = Math.max(...filled.map(({ series }) => timeAt(series.time, countOf(series.time) - 1)));
  return coveringSpan(from, to);
}

/** The half-open span that holds samples at both `first` and `last`. */
export const coveringSpan = (first: Seconds, last: Seconds): Span => ({ from: first, to: last + 1e-6 });

/** While fuel was cut; at least a second, so that it shows. */
function cutSpan({ at, fuelReturn, frontFall }: LiftOff): Span {
  const end = fuelReturn.value ?? frontFall.value ?? at;
  return { from: at, to: Math.max(end, at + 1) };
}
