// What the small pictures beside the lanes are given: lift-offs laid over each other, and activity against air flow.

import type { Polyline } from "../../drawing/paths.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import type { Range } from "../stage/types.ts";

/** One lift-off: times of its lines are relative to the front's fall. */
export interface EventTraces {
  readonly id: string;
  /** "1, at 31.2 s" */
  readonly label: string;
  readonly front: Polyline | null;
  readonly rear: Polyline | null;
  /** From the front's fall to the rear's; drawn for the event chosen. */
  readonly delay: Reading | null;
}

export interface EventOverlayProps {
  readonly events: readonly EventTraces[];
  /** Seconds about the front's fall, such as -1 to 4. */
  readonly span: Span;
  /** "fit" follows what the lines hold. */
  readonly scale: "fit" | Range;
  readonly unit: string;
  readonly guides: readonly number[];
  /** Where the delay is drawn, in the unit: the level at which falls are told. */
  readonly level: number;
  readonly selected: string | null;
  readonly onSelect: (id: string) => void;
}

/** How active the rear was in one stretch or event, at its air flow. */
export interface FlowPoint {
  readonly id: string;
  /** "cruise, 20 … 55 s" */
  readonly label: string;
  /** Air flow, g/s; or what stands in for it. */
  readonly flow: Reading;
  /** Rear over front, say; unit "1". */
  readonly activity: Reading;
  /** Of the stretch the point stands for; colours its dot. */
  readonly stretch: "idle" | "cruise" | "load" | "other";
}

export interface FlowPictureProps {
  readonly points: readonly FlowPoint[];
  readonly activityTitle: string;
  /** What runs along, with its unit: "Air flow, g/s". */
  readonly flowTitle: string;
  /** Levels worth a line, each named: "as active as the front". */
  readonly guides: readonly { readonly level: number; readonly label: string }[];
  readonly selected: string | null;
  readonly onSelect: (id: string) => void;
}
