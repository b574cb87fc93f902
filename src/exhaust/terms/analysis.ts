// What is measured on a capture: the shapes shared by the page and the command line.

import type { Bank } from "../../capture/model/capture.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import type { FrameConditions, Visited } from "./conditions.ts";
import type { HandChecks } from "./hand-checks.ts";
import type { LimitOverrides } from "./limits.ts";
import type { Explanation, StoreStudy } from "./store-study.ts";

/** Half-open span of time, seconds from the capture's first sample. */
export interface Span {
  readonly from: Seconds;
  readonly to: Seconds;
}

/** Readings of one oxygen sensor over a span. Transition times between 0.6 and 0.3 V. */
export interface Sensor {
  readonly frequency: Reading;
  readonly amplitude: Reading;
  readonly minimum: Reading;
  readonly maximum: Reading;
  readonly mean: Reading;
  readonly crossings: Reading;
  readonly crossingsPer10s: Reading;
  readonly richShare: Reading;
  readonly richToLean: Reading;
  readonly leanToRich: Reading;
}
export type SensorReadingName = keyof Sensor;

/** Rear over front in one span. `lag` > 0: the rear is later. */
export interface Activity {
  /** Crossings of 0.45 V, same hysteresis for both. */
  readonly crossingRatio: Reading;
  readonly amplitudeRatio: Reading;
  /** Line length with the noise's part taken off. */
  readonly lengthRatio: Reading;
  readonly lag: Reading;
  /** Crossings of the rear's own mid-level over the front's crossings of 0.45 V: sees a rear that swings beside 0.45 V. */
  readonly ownLevelRatio: Reading;
  /** Energy in the band around the front's frequency. */
  readonly bandRatio: Reading;
  /** Height of the correlation at `lag`, -1 … 1. */
  readonly correlation: Reading;
}
export type ActivityReadingName = keyof Activity;

export interface SensorPair {
  readonly front: Sensor | null;
  readonly rear: Sensor | null;
}

export const stretchKinds = ["not-running", "cold", "idle", "cruise", "load", "overrun", "unsteady"] as const;
export type StretchKind = (typeof stretchKinds)[number];

/** Why rear against front may not be judged in a stretch. */
export type UnfitCode =
  | "not-running"
  | "cold"
  | "fuel-cut"
  | "hard-pull"
  | "open-loop"
  | "moving"
  | "no-sensor"
  | "other-sensor"
  | "asleep"
  | "too-slow"
  | "few-cycles";

export interface Stretch extends Span {
  readonly kind: StretchKind;
  readonly activity: Activity | null;
  /** Whether rear against front may be judged here. */
  readonly fit: boolean;
  /** Why not; absent where it may. */
  readonly unfit?: UnfitCode;
  /** The same, or what the kind was told from, for people. */
  readonly because: string;
  readonly front: FrontHealth | null;
  readonly trims: FuelTrims | null;
  /** "user": `kind` was put right by hand. */
  readonly origin: "found" | "user";
  /** The kind that was read from the recording, whatever the hand says. */
  readonly readAs: StretchKind;
}

/** A stretch put right by hand: the span becomes `kind`, whatever was found there. */
export interface StretchEdit extends Span {
  readonly kind: StretchKind;
}

/** Only in closed loop where the status is known. Percent. */
export interface FuelTrims {
  readonly short: Reading;
  readonly long: Reading;
  /** (1 + S/100)(1 + L/100) - 1 */
  readonly total: Reading;
  readonly closedLoop: "known" | "likely" | "unknown";
}

/** "five-volt" is a titania-like sensor on a 5 V supply; "wide-band" gives lambda. */
export type SensorKind = "narrow-band" | "wide-band" | "five-volt" | "inverted" | "unknown";

/** The quantities of the oxygen-sensor monitoring tests $01 … $0A (SAE J1979 / ISO 15031-5), and the rich share. */
export interface FrontHealth {
  readonly richToLeanThreshold: Reading;
  readonly leanToRichThreshold: Reading;
  readonly lowSwitchLevel: Reading;
  readonly highSwitchLevel: Reading;
  readonly richToLean: Reading;
  readonly leanToRich: Reading;
  readonly minimum: Reading;
  readonly maximum: Reading;
  readonly betweenTransitions: Reading;
  readonly period: Reading;
  readonly richShare: Reading;
}

/** When a sensor woke from its bias. */
export interface Awakening {
  readonly kind: SensorKind;
  /** Level it rested at before it woke, V; not resolvable when it was awake from the first sample. */
  readonly bias: Reading;
  readonly leftBias: Reading;
  /** When it had been both below 0.3 V and above 0.6 V. */
  readonly fullSwing: Reading;
  /** Judged from here on; null: it never woke. */
  readonly awakeFrom: Seconds | null;
  readonly says: string;
}

/** Whether the catalyst can be taken as hot, and from when. */
export interface Warmth {
  readonly hotFrom: Seconds | null;
  readonly told: "known" | "likely" | "unknown";
  readonly says: string;
}

/** Rear activity against how hard the catalyst works: "holds at idle, lets go at cruise" at a glance. */
export interface FlowPicture {
  /** What runs along: air flow, else load, else engine speed; null when none was recorded. */
  readonly along: { readonly role: "air-flow" | "engine-load" | "engine-speed"; readonly unit: string } | null;
  readonly points: readonly FlowPoint[];
  readonly says: string;
}

export interface FlowPoint extends Span {
  readonly kind: StretchKind;
  /** Of the stretch it lies in. */
  readonly origin: Stretch["origin"];
  /** Mean of the quantity along. */
  readonly at: number;
  readonly amplitudeRatio: Reading;
  readonly crossingRatio: Reading;
}

/** Whether fuel was shown to be cut. */
export type FuelCut = "proven" | "likely" | "unknown";

export interface LiftOff {
  /** Stable for the same event: its number in the capture, or the id of an event added by hand. */
  readonly id: string;
  /** Throttle closing, else the front's fall. */
  readonly at: Seconds;
  readonly frontFall: Reading;
  readonly rearFall: Reading;
  readonly delay: Reading;
  readonly storedOxygen: Reading;
  readonly fuelCut: FuelCut;
  /** Mean air flow between front and rear fall, g/s; null without an air-flow channel. */
  readonly airFlow: number | null;
  /** Engine speed at the fall, 1/min; null without the channel. */
  readonly engineSpeed: number | null;
  /** Why it does not count, by rule or by the user's hand; null when it counts. */
  readonly rejected: string | null;
  /** By whom; null when it counts. */
  readonly setAside: "rule" | "hand" | null;
  /** "user" when added or moved by hand. */
  readonly origin: "found" | "user";
  /** When the front turned rich again; where that was not seen, `low` is until when it was seen lean. */
  readonly fuelReturn: Reading;
  /** How much later than the front the rear turned rich again after the cut: the second witness. */
  readonly richAgain: Reading;
  /** The delay less gas transport and sensor lag; null unless the job says the pipe volume and air flow is known. */
  readonly corrected: Reading | null;
  /** Rear time from 0.3 to 0.15 V in this fall: a slow rear sensor delays it by as much. */
  readonly rearSwitch: Reading;
  /** Whether it may be judged: rich long enough before, rear rich and awake, cut at least likely. */
  readonly valid: boolean;
  /** What was found about it, for people: "rear was rich before", "fuel cut likely: throttle closed at 2400 rpm". */
  readonly remarks: readonly string[];
}

export interface LiftOffSummary {
  readonly delay: Reading;
  readonly storedOxygen: Reading;
  readonly richAgain: Reading;
  /** Longest less shortest delay, s; null with fewer than two measured. */
  readonly spread: number | null;
  /** How many more events would about halve the spread's share of the bounds; 0 when it is small already. */
  readonly more: number;
}

/** A lift-off added, moved or rejected by hand. */
export type LiftOffEdit =
  | { readonly kind: "add"; readonly id: string; readonly at: Seconds }
  | { readonly kind: "move"; readonly id: string; readonly at: Seconds }
  | { readonly kind: "reject"; readonly id: string; readonly because: string }
  | { readonly kind: "accept"; readonly id: string };

export type FindingId = "catalyst" | "front-sensor" | "rear-sensor" | "air-leak" | "mixture" | "misfire" | "recording";
export type Verdict = "points-to" | "points-away" | "cannot-say";

export interface FindingReason {
  /** Name of the reading that speaks, "amplitudeRatio, cruise 20 … 55 s". */
  readonly reading: string;
  readonly says: string;
  /** Where it was read; absent where it is of the whole recording. */
  readonly at?: ReasonPlace;
}

/** A stretch by its span, s, or the lift-offs that count. */
export type ReasonPlace = ({ readonly kind: "stretch" } & Span) | { readonly kind: "lift-offs" };

export interface Finding {
  readonly id: FindingId;
  readonly verdict: Verdict;
  readonly statement: string;
  readonly for: readonly FindingReason[];
  readonly against: readonly FindingReason[];
  readonly next: readonly string[];
  /** What the verdict depends on: the stretch, the limits used, other findings. */
  readonly dependsOn: readonly string[];
  /** Of the mixture: the side it points to. */
  readonly side?: "lean" | "rich";
  /** Of the catalyst: what explains the recording, and what explains it as well. */
  readonly explanation?: Explanation;
}

/** The samples and crossings behind a reading, to be shown on the trace. */
export interface Evidence {
  readonly span: Span;
  /** Of many, as many as a screen can hold, spread over all of them. Those of one level stand together, times rising. */
  readonly marks: readonly EvidenceMark[];
  /** How many there are. */
  readonly count: number;
  /** Levels that mattered, in the channel's unit. */
  readonly levels: readonly number[];
}

export interface EvidenceMark {
  readonly channelId: string;
  readonly time: Seconds;
  readonly value: number;
}

/** Readings over a span chosen by hand, and what lies behind them. */
export interface SpanReadings {
  readonly span: Span;
  readonly sensors: SensorPair;
  readonly activity: Activity | null;
  /** Evidence behind "front.frequency", "rear.richToLean", "activity.lag", …; absent where there is none. */
  readonly evidence: EvidenceTable;
  /** Of every channel, where that was asked for. */
  readonly levels?: readonly ChannelLevels[];
}

/** What any channel held over a span, in its own unit. */
export interface ChannelLevels {
  readonly channelId: string;
  readonly mean: Reading;
  readonly minimum: Reading;
  readonly maximum: Reading;
  /** Of the samples due at its usual step, those that hold a value, %. */
  readonly held: Reading;
}
export type LevelName = Exclude<keyof ChannelLevels, "channelId">;

export type EvidenceKey =
  | `channel.${LevelName}.${string}`
  | `front.${SensorReadingName}`
  | `rear.${SensorReadingName}`
  | `activity.${ActivityReadingName}`;
export type EvidenceTable = Readonly<Partial<Record<EvidenceKey, Evidence>>>;

/** Everything measured on one bank of a capture. */
export interface Analysis {
  readonly bank: Bank;
  readonly sensors: SensorPair;
  readonly stretches: readonly Stretch[];
  readonly whole: Activity | null;
  /** Fuel cuts in the whole, in which both sensors go lean: its ratios hold them too. */
  readonly wholeCuts: { readonly count: number; readonly seconds: Seconds; readonly isOpen: boolean };
  readonly liftOffs: readonly LiftOff[];
  readonly liftOff: LiftOffSummary | null;
  readonly findings: readonly Finding[];
  readonly awake: { readonly front: Awakening | null; readonly rear: Awakening | null };
  readonly warmth: Warmth;
  readonly flowPicture: FlowPicture;
  /** Whether the recording has been where the code was stored; absent without a freeze frame. */
  readonly visited?: Visited;
  /** Oxygen that the catalyst can hold, g, from everything recorded; null where nothing can be looked at. */
  readonly store: Reading | null;
  /** The same for each litre of engine, g/l; null where the store or the engine's size is not known. */
  readonly storePerLitre: Reading | null;
  readonly storeStudy: StoreStudy | null;
}

/** What the user said about the job; all of it optional. */
export interface AnalysisChoices {
  /** Without it: bank 1, unless only bank 2 has an oxygen sensor. */
  readonly bank?: Bank;
  readonly limits?: LimitOverrides;
  readonly edits?: readonly LiftOffEdit[];
  readonly stretches?: readonly StretchEdit[];
  /** Engine size, l. */
  readonly litres?: number;
  /** Gas volume between front and rear sensor, and its usual temperature, for the transport correction. */
  readonly pipe?: { readonly litres: number; readonly kelvin?: number };
  /** The conditions under which a code was stored. */
  readonly frame?: FrameConditions;
  /** What was checked by hand. */
  readonly byHand?: HandChecks;
}
