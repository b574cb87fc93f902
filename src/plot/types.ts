// What the plot is given and what it tells back. The plot knows no job and no worker: the app feeds it.

import type { EvidenceMark, Span, Stretch } from "../exhaust/analysis.ts";
import type { Reading } from "../signal/reading.ts";
import type { Seconds } from "../signal/units.ts";

/** The visible span of time, seconds from the capture's first sample. */
export type View = Span;

/** A channel as drawn: front is a thin warm line, rear a thick cool one. */
export interface TraceLook {
  readonly channelId: string;
  readonly label: string;
  readonly unit: string;
  readonly look: "front" | "rear" | "other";
  /** Drawn behind, dashed and paler: a trace laid under for comparison. */
  readonly reference?: boolean;
}

export interface LaneLook {
  readonly id: string;
  readonly title: string;
  readonly unit: string;
  readonly traces: readonly TraceLook[];
  readonly scale: "fit" | readonly [low: number, high: number];
  readonly share: number;
  /** Faint guide lines, such as 0.45 V for oxygen sensors. */
  readonly guides: readonly number[];
}

/**
 * What a channel holds in a window, at most a few values per pixel. `times` rise; a NaN value is a gap in the line.
 * `dense`: values come as lowest and highest of each pixel column (two entries with that column's time), else they
 * are the samples themselves, one past each edge included.
 */
export interface TraceWindow {
  readonly channelId: string;
  readonly times: Float64Array;
  readonly values: Float64Array;
  readonly dense: boolean;
}

/** A dimension or cursor pair as drawn. Ends stand at (time, level); see job's Dimension. */
export interface DimensionLook {
  readonly id: string;
  readonly kind: "time" | "level";
  readonly laneId: string;
  readonly from: { readonly time: Seconds; readonly level: number };
  readonly to: { readonly time: Seconds; readonly level: number };
  readonly place: number;
  readonly label: string;
  readonly reading: Reading;
  /** A cursor pair that can be dragged, as opposed to a pinned dimension. */
  readonly isCursor: boolean;
}

export interface PlotMarks {
  readonly evidence: readonly EvidenceMark[];
  readonly evidenceSpan: Span | null;
  readonly stretches: readonly Stretch[];
}
