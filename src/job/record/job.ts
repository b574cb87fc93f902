// The record of one vehicle's complaint: what is saved, and nothing that can be derived.

import type { Bank, Role } from "../../capture/model/capture.ts";
import type { ReadChoices } from "../../capture/model/reader.ts";
import type { MatchingPart } from "../../exhaust/comparing/comparison.ts";
import type { Shift } from "../../exhaust/lining-up/line-up.ts";
import type { AnalysisChoices, LiftOffEdit, StretchEdit } from "../../exhaust/terms/analysis.ts";
import type { LimitOverrides } from "../../exhaust/terms/limits.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import type { Seconds } from "../../signal/numbers/units.ts";

export const jobVersion = 1;

export interface Job {
  readonly version: typeof jobVersion;
  readonly id: string;
  readonly name: string;
  readonly notes: string;
  readonly vehicle: Vehicle;
  readonly createdAt: string;
  readonly changedAt: string;
  readonly captures: readonly CaptureRecord[];
  /** The recording looked at last; the newest where it is absent or gone. */
  readonly lookedAt?: string;
  readonly exhibits: readonly ExhibitRecord[];
  /** Limits changed for this job; the rest as delivered. */
  readonly limits?: LimitOverrides;
  /** Gas volume between front and rear sensor, where it was measured. */
  readonly pipe?: NonNullable<AnalysisChoices["pipe"]>;
}

/** All free text; plate, VIN and customer stay off every exhibit unless ticked. */
export interface Vehicle {
  readonly description: string;
  readonly codes: string;
  readonly odometer: string;
  readonly plate: string;
  readonly vin: string;
  readonly customer: string;
}

/** One recording kept with the job, and how the user looks at it. */
export interface CaptureRecord {
  readonly id: string;
  readonly fileName: string;
  readonly sha256: string;
  readonly size: number;
  readonly choices: ReadChoices;
  readonly bench: BenchState;
}

/** All that undo and redo go through. Immutable; channels are named by Channel.id. */
export interface BenchState {
  readonly lanes: readonly Lane[];
  readonly hidden: readonly string[];
  readonly channels: Readonly<Record<string, ChannelSettings>>;
  /** Cursors: at most one time pair and one level pair stand at once, not pinned. */
  readonly cursors: readonly Dimension[];
  readonly dimensions: readonly Dimension[];
  readonly liftOffEdits: readonly LiftOffEdit[];
  /** Stretches put right by hand. */
  readonly stretchEdits?: readonly StretchEdit[];
  /** The reference it lies over: "shelf:ID", "job:CAPTURE-ID", "sample:FILE". */
  readonly compared?: string;
  /** How it lies there, as far as somebody chose. */
  readonly laid?: Laid;
  /** The usual band is drawn, over the reference and these known-good traces, named as above. */
  readonly banded?: readonly string[];
  /** Other recordings of the same run on this one's time axis; their channels stand in `lanes` under ids of their own. */
  readonly companions?: readonly Companion[];
  readonly bank: Bank;
}

/** How a reference is laid under a recording. */
export interface Laid {
  /** Absent: as the first way to line the two up has it. */
  readonly shift?: Shift;
  readonly picture?: Partial<PictureSettings>;
  /** The parts that are compared; all where there is none. */
  readonly parts?: readonly MatchingPart[];
}

export interface PictureSettings {
  /** In the same lane, or in a lane of its own below. */
  readonly place: "behind" | "below";
  /** Both lanes on one scale, or each fitted; behind is always one scale. */
  readonly scale: "common" | "each";
  readonly difference: boolean;
}

/** Another recording of the job, and how far it is shifted: time here = time there + shift. */
export interface Companion {
  readonly captureId: string;
  readonly shift: Shift;
}

export interface Lane {
  readonly id: string;
  readonly channelIds: readonly string[];
  /** "fit" follows what the visible window holds; a pair holds the scale there. */
  readonly scale: "fit" | readonly [low: number, high: number];
  /** Height relative to the other lanes. */
  readonly share: number;
}

/** Corrections by the user. value shown and measured = recorded * gain + offset; every exhibit states it. */
export interface ChannelSettings {
  readonly role?: Role;
  readonly bank?: Bank;
  readonly unit?: string;
  readonly label?: string;
  readonly gain: number;
  readonly offset: number;
}

/** Where an end of a dimension stands. */
export interface Anchor {
  readonly time: Seconds;
  /** In the lane's unit. */
  readonly level: number;
  /** The channel it was snapped to, and how well the place is known. */
  readonly snap?: {
    readonly channelId: string;
    readonly to: "crossing" | "extreme" | "sample";
    readonly low: number;
    readonly high: number;
  };
}

/** A measurement placed on a trace by hand. */
export interface Dimension {
  readonly id: string;
  readonly kind: "time" | "level";
  readonly laneId: string;
  readonly from: Anchor;
  readonly to: Anchor;
  /** Where the dimension line is drawn: a level for a time pair, a time for a level pair. */
  readonly place: number;
  readonly label: string;
  readonly reading: Reading;
}

/** A frozen picture. A change makes a new one with a higher revision. */
export interface ExhibitRecord {
  readonly id: string;
  readonly captureId: string;
  readonly revision: number;
  readonly headline: string;
  readonly madeAt: string;
  readonly paper: "A4" | "Letter";
  /** Id of the exhibit of which this is the next revision. */
  readonly revises?: string;
  /** Names of the kept blobs. */
  readonly svg: string;
  readonly png: string;
}
