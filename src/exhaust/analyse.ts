// Everything measured on one bank of a capture: the one entry that the page's worker and the command line share.

import type { Capture, Channel } from "../capture/model/capture.ts";
import type { Seconds } from "../signal/numbers/units.ts";
import { countOf, timeAt } from "../signal/series/series.ts";
import { flowPicture } from "./activity/flow-picture.ts";
import { judgeStretch } from "./activity/judged-stretches.ts";
import { measuredOf, measureSides, switchingOnly } from "./activity/pair.ts";
import { visitedOf } from "./conditions/visited.ts";
import { findingsOf } from "./findings/findings.ts";
import { banksLookSwapped } from "./findings/swapped-banks.ts";
import { closingsOf } from "./lift-offs/closings.ts";
import { cutSpan, cutsIn } from "./lift-offs/cuts-in.ts";
import { liftOffsOf, summariseLiftOffs } from "./lift-offs/lift-offs.ts";
import { findStretches } from "./running/stretches.ts";
import { warmthOf } from "./running/warmth.ts";
import { awakeningOf } from "./sensors/awake.ts";
import { isTurnedOver } from "./sensors/turned-over.ts";
import { perLitre } from "./store/per-litre.ts";
import { storeOf } from "./store/store.ts";
import type { Analysis, AnalysisChoices, Span } from "./terms/analysis.ts";
import { bankOf, channelsOf } from "./terms/channels.ts";
import { limitsInForce } from "./terms/limits.ts";
import { anew, type Recall } from "./terms/remembered.ts";
import type { StoreStudy } from "./terms/store-study.ts";

/**
 * Pure. What a recording cannot support is refused reading by reading, with the reason; nothing is thrown on data.
 *
 * @param onShare  told how much is done, 0 … 1, where that takes long.
 * @param recall   a memory for this capture: what an edit leaves as it was is not measured anew.
 */
export function analyse(
  capture: Capture,
  choices: AnalysisChoices = {},
  onShare: (share: number) => void = () => {},
  recall: Recall = anew,
): Analysis {
  const { limits, bank, channels, span, awake, warmth } = beginningOf(capture, choices, recall);
  const edits = choices.edits ?? [];
  const liftOffs = liftOffsOf({ channels, limits, edits, rearAwake: awake.rear, pipe: choices.pipe, recall });
  onShare(done.liftOffs);
  const cuts = liftOffs.filter((one) => one.setAside !== "hand").map(cutSpan);
  const said = JSON.stringify([cuts, choices.stretches]);
  const plain = recall("stretches", [warmth, said], limits, (used) =>
    findStretches({ channels, span, warmth, cuts, limits: used, recall }, choices.stretches),
  );
  const switching = switchingOnly(channels);
  const between = (from: number, to: number) => (share: number) => onShare(from + (to - from) * share);
  const judged = (time: Seconds) => done.liftOffs + (done.stretches - done.liftOffs) * shareBefore(time, span);
  const stretches = plain.map((one) => {
    const onJudged = between(judged(one.from), judged(one.to));
    return judgeStretch(one, { channels: switching, ...awake, warmth, limits, recall }, onJudged);
  });
  onShare(done.stretches);
  const onSides = between(done.stretches, done.whole);
  const whole = recall("whole", [], limits, (used) =>
    measuredOf(measureSides(switching, { span, limits: used, leastCycles: 1, onShare: onSides })),
  );
  onShare(done.whole);
  const visited = recall("visited", [JSON.stringify(choices.frame)], limits, (used) =>
    visitedOf(choices.frame ?? {}, { channels, span, limits: used }),
  );
  const storeStudy = studyIn({ limits, channels, span, awake, warmth }, choices, recall);
  const measured = {
    bank,
    sensors: { front: whole.front?.sensor ?? null, rear: whole.rear?.sensor ?? null },
    stretches,
    whole: whole.activity,
    wholeCuts: cutsIn(liftOffs, span),
    liftOffs,
    liftOff: summariseLiftOffs(liftOffs),
    awake,
    warmth,
    flowPicture: recall("flow picture", stretches, limits, (used) => flowPicture(switching, stretches, used, recall)),
    ...(visited ? { visited } : {}),
    store: storeStudy?.reading ?? null,
    storePerLitre: storeStudy && choices.litres ? perLitre(storeStudy.reading, choices.litres) : null,
    storeStudy,
  };
  const banksSwapped = recall("banks swapped", [], limits, (used) =>
    banksLookSwapped(channels, channelsOf(capture, bank === 1 ? 2 : 1), used),
  );
  return {
    ...measured,
    findings: findingsOf({ channels, measured, limits, span, byHand: choices.byHand, banksSwapped }),
  };
}

/**
 * The store of a recording alone, for a thread beside the one that measures the rest: see `answering` in remembered.ts.
 *
 * @param choices, recall  as of `analyse`, which gives the same answer as `storeStudy`.
 */
export function storeStudyOf(capture: Capture, choices: AnalysisChoices, recall: Recall): StoreStudy | null {
  return studyIn(beginningOf(capture, choices, recall), choices, recall);
}

type Beginning = ReturnType<typeof beginningOf>;

/** What all else rests on: which channels there are, and from when on they tell something. */
function beginningOf(capture: Capture, choices: AnalysisChoices, recall: Recall) {
  const limits = limitsInForce(choices.limits);
  const bank = bankOf(capture, choices.bank);
  const channels = channelsOf(capture, bank);
  const span = spanOf(capture);
  const front = channels.front ?? channels.frontLambda ?? channels.frontPump;
  const turnedOver = recall("turned over", [], limits, (used) => {
    const switching = channels.front && channels.front.unit !== "1" ? channels.front : null;
    return switching !== null && isTurnedOver(switching.series, closingsOf(channels, used), used);
  });
  const woke = (side: "front" | "rear", channel: Channel | null) =>
    channel && recall(`${side} awake`, [turnedOver], limits, (used) => awakeningOf(channel, used, turnedOver));
  const awake = { front: woke("front", front), rear: woke("rear", channels.rear) };
  const warmth = recall("warmth", [awake.front], limits, (used) => warmthOf(channels, awake.front, used));
  return { limits, bank, channels, span, awake, warmth };
}

function studyIn(
  { limits, channels, span, awake, warmth }: Omit<Beginning, "bank">,
  choices: AnalysisChoices,
  recall: Recall,
): StoreStudy | null {
  const litres = choices.litres ?? null;
  return recall("store", [warmth, awake.front, awake.rear, litres], limits, (used) =>
    storeOf({ channels, span, warmth, awake, limits: used, litres }),
  );
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
