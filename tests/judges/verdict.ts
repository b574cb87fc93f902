// What the program says of one recording, and whether that is right: by its answer alone, never by its rules.

import type { Capture } from "../../src/capture/model/capture.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import { warningsOf } from "../../src/exhaust/findings/warnings.ts";
import type { Analysis, FindingId, Verdict } from "../../src/exhaust/terms/analysis.ts";
import { type Judged, judgedRecording, type Kind, type Known, type PlantName } from "./recording.ts";

export interface Said {
  readonly catalyst: Verdict;
  /** Findings other than the catalyst's that point to their own cause. */
  readonly pointing: readonly FindingId[];
  /** The fault was told by its own finding, or by its own words; null where the kind has none. */
  readonly told: boolean | null;
  /** Bounds of the store, g, null on an open side; null: no such answer. */
  readonly bounds: readonly [low: number | null, high: number | null] | null;
}

export interface Row extends Known, Said {}

/** The finding that a fault belongs to. */
const ownFinding: Partial<Record<Kind, FindingId>> = {
  "slow-front": "front-sensor",
  "slow-rear": "rear-sensor",
  "dead-behind-slow-rear": "rear-sensor",
  "rear-asleep": "rear-sensor",
  "leak-ahead": "air-leak",
  "leak-between": "air-leak",
  rich: "mixture",
  lean: "mixture",
  misfire: "misfire",
};

/** Faults of the recording have no finding of their own: that they are named at all is asked for. */
const ownWords: Partial<Record<Kind, RegExp>> = {
  "swapped-leads": /swapped|each other's place/i,
  offset: /offset|ground/i,
};

export const hasOwnFinding = (kind: Kind): boolean => kind in ownFinding || kind in ownWords;

export async function judge(plant: PlantName, kind: Kind, number: number): Promise<Row> {
  const { known, capture }: Judged = await judgedRecording(plant, kind, number);
  return { ...known, ...say(capture, kind) };
}

function say(capture: Capture, kind: Kind): Said {
  const analysis = analyse(capture);
  const catalyst = analysis.findings.find(({ id }) => id === "catalyst")!.verdict;
  const pointing = analysis.findings
    .filter(({ id, verdict }) => id !== "catalyst" && verdict === "points-to")
    .map(({ id }) => id);
  return { catalyst, pointing, told: isTold({ analysis, capture, kind, pointing }), bounds: boundsOf(analysis) };
}

interface Told {
  readonly analysis: Analysis;
  readonly capture: Capture;
  readonly kind: Kind;
  readonly pointing: readonly FindingId[];
}

function isTold({ analysis, capture, kind, pointing }: Told): boolean | null {
  const own = ownFinding[kind];
  if (own) return pointing.includes(own);
  const words = ownWords[kind];
  if (!words) return null;
  const { findings, bank } = analysis;
  const sentences = [
    ...findings.flatMap(({ statement, next }) => [statement, ...next]),
    ...warningsOf(capture, bank).map(({ text }) => text),
  ];
  return sentences.some((sentence) => words.test(sentence));
}

function boundsOf(analysis: Analysis): Said["bounds"] {
  const { store } = analysis;
  if (!store || (store.low === null && store.high === null)) return null;
  const rounded = (grams: number | null) => (grams === null ? null : Number(grams.toPrecision(4)));
  return [rounded(store.low), rounded(store.high)];
}
