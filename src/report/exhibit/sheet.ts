// One exhibit as plain data: everything the drawing sheet shows, and nothing that has to be looked up to draw it.

import type { BandLayer, LineLayer } from "../../drawing/layer.ts";
import type { Polyline } from "../../drawing/paths.ts";
import type { EvidenceMark, Span } from "../../exhaust/terms/analysis.ts";
import type { ExhibitRecord } from "../../job/record/job.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import type { Seconds } from "../../signal/numbers/units.ts";

export type Paper = ExhibitRecord["paper"];

/** Ask for windows this many columns wide: the plot's width on A4 at 300 dots per inch, rounded up. */
export const printWidth = 3000;

/** A place on a lane: seconds from the capture's first sample, level in the lane's unit. */
export interface Place {
  readonly time: Seconds;
  readonly level: number;
}

export interface ExhibitSheet {
  readonly paper: Paper;
  readonly headline: string;
  /** One plain sentence below the headline; "" for none. */
  readonly subline: string;
  readonly view: Span;
  readonly lanes: readonly SheetLane[];
  /** Of the customer's picture, where it shows more or says it otherwise: a sound catalyst's band, everyday names of two cars. */
  readonly small?: Pick<ExhibitSheet, "lanes" | "dimensions">;
  /** Short spans enlarged beside the lanes. */
  readonly details?: readonly SheetDetail[];
  readonly dimensions: readonly SheetDimension[];
  readonly notes: readonly SheetNote[];
  readonly shade: SheetShade | null;
  readonly marks: readonly EvidenceMark[];
  readonly readings: readonly NamedReading[];
  readonly title: TitleBlock;
}

/** A short span of one lane, enlarged; framed in that lane under the same letter. */
export interface SheetDetail {
  readonly letter: string;
  readonly view: Span;
  /** With samples of its own; its id is that of the lane it enlarges, its title tells what is seen. */
  readonly lane: SheetLane;
  readonly dimensions: readonly SheetDimension[];
}

export interface SheetLane {
  readonly id: string;
  readonly title: string;
  /** It was made for one trace, which the title names. */
  readonly namesTrace?: boolean;
  /** Its lines are named elsewhere on the sheet. */
  readonly isKeyless?: boolean;
  /** Its bands are named elsewhere on the sheet. */
  readonly namesNoBands?: boolean;
  readonly unit: string;
  readonly layers: readonly SheetLayer[];
  /** What the lane spans, bottom and top; low < high. */
  readonly scale: readonly [low: number, high: number];
  /** Faint lines across the lane, such as 0.45 V. */
  readonly guides: readonly number[];
  /** Height relative to the other lanes. */
  readonly share: number;
}

/** A line with the samples it is drawn from, or a band. */
export type SheetLine = LineLayer & Polyline;
export type SheetLayer = SheetLine | BandLayer;

/** A dimension or cursor pair; see job's Dimension. */
export interface SheetDimension {
  readonly id: string;
  readonly kind: "time" | "level";
  readonly laneId: string;
  readonly from: Place;
  readonly to: Place;
  /** Where the dimension line runs: a level for a time pair, a time for a level pair. */
  readonly place: number;
  readonly label: string;
  /** Of two recordings that are compared. */
  readonly whose?: "suspect" | "reference";
  readonly reading: Reading;
}

/** Words with a leader to a point. `side`: where the words stand, seen from the point. */
export interface SheetNote {
  readonly id: string;
  readonly laneId: string;
  readonly at: Place;
  readonly text: string;
  readonly side: NoteSide;
}
export const noteSides = ["above-right", "above-left", "below-right", "below-left"] as const;
export type NoteSide = (typeof noteSides)[number];

/** A span shaded through all lanes. */
export interface SheetShade {
  readonly span: Span;
  readonly label: string;
}

export interface NamedReading {
  readonly name: string;
  readonly reading: Reading;
}

/** Null where it is not known; over a view, from its lowest to its highest. */
export type Condition = number | readonly [low: number, high: number] | null;

/** What was so at the event or over the view. */
export interface Conditions {
  /** 1/min */
  readonly engineSpeed: Condition;
  /** g/s */
  readonly airFlow: Condition;
  /** degC */
  readonly coolant: Condition;
}

/** Text only, ready to print. Plate, VIN and customer are null unless ticked. */
export interface TitleBlock {
  readonly job: string;
  readonly vehicle: string;
  readonly plate: string | null;
  readonly vin: string | null;
  readonly customer: string | null;
  readonly recording: string;
  /** 64 hexadecimal digits. */
  readonly sha256: string;
  readonly sampleRate: string;
  readonly recordedAt: string;
  readonly conditions: string;
  /** Gains, offsets, inversions, units and roles that the user set; scale and filters. One sentence each. */
  readonly settings: readonly string[];
  readonly sheet: number;
  readonly sheets: number;
  readonly revision: number;
  readonly drawnBy: string;
  readonly drawnAt: string;
}
