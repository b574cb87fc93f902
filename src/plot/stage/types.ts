// What the plot is given and what it tells back. The plot knows no job and no worker: the app feeds it.

import type { JSX } from "solid-js";
import type { Layer, LineLayer } from "../../drawing/layer.ts";
import type { Polyline } from "../../drawing/paths.ts";
import type { EvidenceMark, Span, Stretch } from "../../exhaust/terms/analysis.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import type { Seconds } from "../../signal/numbers/units.ts";

/** The visible span of time, seconds from the capture's first sample. */
export type View = Span;

/** Lowest and highest value of a vertical scale, in the lane's unit. */
export type Range = readonly [low: number, high: number];

export interface LaneLook {
  readonly id: string;
  readonly title: string;
  /** It was made for one trace, which the title names: alone, that trace needs no key of its own. */
  readonly namesTrace?: boolean;
  /** All its traces are of another recording, which the title names. */
  readonly isOfAnother?: boolean;
  readonly unit: string;
  readonly layers: readonly Layer[];
  readonly scale: "fit" | Range;
  /** Height relative to the other lanes. */
  readonly share: number;
  /** Faint guide lines, such as 0.45 V for oxygen sensors. */
  readonly guides: readonly number[];
}

/**
 * What a channel holds in a window, at most a few values per pixel. `times` rise; a NaN value is a gap in the line.
 * `dense`: values come as lowest and highest of each pixel column (two entries with that column's time), else they
 * are the samples themselves, one past each edge included.
 */
export interface TraceWindow extends Polyline {
  readonly channelId: string;
}

/** A spot in a lane: a time, and a level in the lane's unit. */
export interface Spot {
  readonly time: Seconds;
  readonly level: number;
}

/** A dimension or cursor pair as drawn. Ends stand at (time, level); see job's Dimension. */
export interface DimensionLook {
  readonly id: string;
  readonly kind: "time" | "level";
  readonly laneId: string;
  readonly from: Spot;
  readonly to: Spot;
  /** Where the dimension line is drawn: a level for a time pair, a time for a level pair. */
  readonly place: number;
  readonly label: string;
  readonly reading: Reading;
  /** A cursor pair that can be dragged, as opposed to a pinned dimension. */
  readonly isCursor: boolean;
}

export interface PlotMarks {
  /** Marks of one level stand together, times rising. */
  readonly evidence: readonly EvidenceMark[];
  /** How many places there are where not all are among the marks. */
  readonly evidenceCount: number;
  /** Levels that mattered for the evidence, in the unit of the lanes that hold the marks' channels. */
  readonly evidenceLevels: readonly number[];
  readonly evidenceSpan: Span | null;
  readonly stretches: readonly Stretch[];
}

/** What a channel holds at an instant; `between`: no sample stands there, the value is interpolated. */
export interface CursorValue {
  readonly channelId: string;
  readonly value: number | null;
  readonly between: boolean;
}

/** Values at one vertical line through all lanes: an end of a time pair, an instant that is held, or the pointer. */
export interface Readout {
  readonly time: Seconds;
  readonly kind?: "pair" | "held" | "pointer";
  readonly values: readonly CursorValue[];
}

/** An instant (both ends one) or a span with a name. */
export interface NamedPlace extends Span {
  readonly name: string;
}

/** The ends of a pair that are under a hand: where they would go when it lets go. */
export interface Aim {
  readonly kind: "time" | "level";
  readonly laneId: string;
  readonly ends: readonly Spot[];
}

/** What an end would be set on, lit before it is. */
export interface LitSpot extends Spot {
  readonly laneId: string;
  readonly word: string;
}

/** A short span of one lane, sample by sample. */
export interface LoupeLook {
  readonly laneId: string;
  readonly span: Span;
  readonly windows: ReadonlyMap<string, TraceWindow>;
}

/**
 * What a press on the lanes does. In every tool the wheel zooms, two fingers pinch, arrow keys pan.
 * `time-pair`, `level-pair`: a drag sets both ends, a tap sets a pair ready to be dragged. `span`: a drag shades a span.
 * `box`: a drag draws what is to fill the view.
 * `slide`: a drag moves what is laid under the lanes along the time axis; with the focus on the lanes, arrow keys do.
 * `spot`: a tap names a place (a note's leader, a lift-off added by hand).
 */
export type Tool = "pan" | "time-pair" | "level-pair" | "span" | "box" | "slide" | "spot";

export type DimensionPart = "from" | "to" | "line";

/** What the user did to a dimension; the app decides what becomes of it. */
export type DimensionEvent =
  | {
      readonly kind: "place";
      readonly dimension: Pick<DimensionLook, "kind" | "laneId" | "from" | "to" | "place">;
    }
  /** `place` moves with "line". `final` is false while a drag is under way: one undo step per final. */
  | {
      readonly kind: "move";
      readonly id: string;
      readonly part: DimensionPart;
      readonly from: Spot;
      readonly to: Spot;
      readonly place: number;
      readonly final: boolean;
      /** By pointer: let go, it is set on what is lit. */
      readonly isDragged?: boolean;
    }
  | { readonly kind: "select"; readonly id: string | null }
  /** Wants a value typed for an end (Enter). */
  | { readonly kind: "type"; readonly id: string; readonly part: "from" | "to" }
  /** Wants a label typed (Enter or double-click on the text). */
  | { readonly kind: "label"; readonly id: string }
  /** Wants the end on the nearest crossing (key C) or extreme (key X). */
  | {
      readonly kind: "snap";
      readonly id: string;
      readonly part: "from" | "to";
      readonly snapTo: "crossing" | "extreme";
    }
  /** Key P. */
  | { readonly kind: "pin"; readonly id: string }
  /** Delete or Backspace. */
  | { readonly kind: "remove"; readonly id: string };

export interface LaneStackProps {
  readonly lanes: readonly LaneLook[];
  readonly windows: ReadonlyMap<string, TraceWindow>;
  readonly view: View;
  /** The whole capture: what "see all" goes to, and what panning keeps within. */
  readonly whole: Span;
  /** At most once per animation frame. */
  readonly onView: (view: View) => void;
  /** Width of the traces in device pixels, so that windows of that width can be asked for. */
  readonly onWidth: (devicePixels: number) => void;
  /** The scales in force after fitting, by lane: what "hold" should hold. Called when one changes. */
  readonly onScales?: (ranges: ReadonlyMap<string, Range>) => void;
  /** The user dragged or wheeled a lane's scale: it should be held there. */
  readonly onHold?: (laneId: string, range: Range) => void;

  readonly tool: Tool;
  readonly dimensions: readonly DimensionLook[];
  readonly selectedDimension: string | null;
  readonly onDimension: (event: DimensionEvent) => void;

  /** While ends are dragged or a pair is drawn; null when that is over or given up. */
  readonly onAim?: (aim: Aim | null) => void;
  readonly lit?: readonly LitSpot[];

  /** Vertical lines with each channel's value: ends of the time pair, and the pointer if wished. */
  readonly readouts: readonly Readout[];
  /**
   * Where the pointer hovers; null when it left. `isKept`: where a finger or a key reads, which stays. At most once per
   * animation frame.
   */
  readonly onCursor: (time: Seconds | null, isKept: boolean) => void;
  /** The instant that a finger or a key reads: it can be moved by hand. */
  readonly instant?: Seconds | null;
  /** A long press, or a key: what is read from now on is told against this instant; null lets it go. */
  readonly onHoldInstant?: (time: Seconds | null) => void;
  /** The lane that a finger reads in; null when it was lifted. */
  readonly onFinger?: (laneId: string | null) => void;
  /** What lies under the finger, drawn larger beside it. */
  readonly loupe?: LoupeLook | null;

  readonly marks: PlotMarks;
  readonly places?: readonly NamedPlace[];
  /** Shaded span chosen by the user. */
  readonly span: Span | null;
  readonly onSpan?: (span: Span | null) => void;
  /** A drag with the tool "box". `range` is null where the box is flat: only its time was meant. */
  readonly onBox?: (box: { readonly laneId: string; readonly span: Span; readonly range: Range | null }) => void;
  /** A drag with the tool "slide", or an arrow key: by so much since the last time; at most once per animation frame. */
  readonly onSlide?: (by: Seconds, isFinal: boolean) => void;
  /** A tap with the tool "spot". */
  readonly onSpot?: (laneId: string, spot: Spot) => void;
  /** Buttons of a lane, shown in its upper right corner. */
  readonly laneTools?: (laneId: string) => JSX.Element;
}

export interface OverviewProps {
  readonly whole: Span;
  /** Windows over the whole capture. */
  readonly windows: ReadonlyMap<string, TraceWindow>;
  /** Front and rear, as a rule; each is drawn over its own full height. */
  readonly traces: readonly LineLayer[];
  readonly view: View;
  readonly onView: (view: View) => void;
  readonly onWidth?: (devicePixels: number) => void;
  readonly stretches: readonly Stretch[];
  /** The one that is looked at, outlined. */
  readonly chosenStretch?: Stretch | null;
  /** A stretch was touched. */
  readonly onStretch: (stretch: Stretch) => void;
  readonly stretchName: (kind: Stretch["kind"]) => string;
  /** Instants worth a tick: lift-offs. */
  readonly events?: readonly Seconds[];
  readonly places?: readonly NamedPlace[];
  /** Spans worth a bar: where the conditions of a freeze frame were met. */
  readonly marked?: readonly Span[];
}
