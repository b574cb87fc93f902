// What is being drawn with a tool, before it is told: a pair, or a span.

import type { Box } from "../../drawing/boxes.ts";
import { toPixel } from "../../drawing/paths.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import { measured, type Unit } from "../../signal/numbers/reading.ts";
import type { Stage } from "../stage/stage.ts";
import type { Aim, DimensionLook, LaneStackProps, Spot } from "../stage/types.ts";
import type { Draft } from "./gestures.ts";

/** A tap sets a pair this share of the view, or of the scale, apart. */
const tapShare = 0.12;
const units: readonly Unit[] = ["s", "Hz", "V", "g", "g/s", "%", "1/min", "km/h", "degC", "kPa", "mA", "1"];

/** The pair under the pointer: its plain difference to the pixel, before anything is measured. */
export function draftLook(draft: Draft | null, props: LaneStackProps, stage: Stage): DimensionLook | null {
  const kind = kindOf(props);
  if (draft === null || kind === null) return null;
  const ends = endsOf(draft, kind);
  const pixel = kind === "time" ? stage.secondsPerPixel() : 1 / Math.abs(stage.y(draft.laneId).factor);
  const delta = kind === "time" ? ends.to.time - ends.from.time : ends.to.level - ends.from.level;
  const unit = kind === "time" ? "s" : unitOf(draft.laneId, props);
  const reading = measured(delta, [delta - pixel, delta + pixel], unit);
  return { id: "being-drawn", kind, laneId: draft.laneId, ...ends, label: "", reading, isCursor: false };
}

/** The ends of the pair being drawn. */
export function draftAim(draft: Draft | null, props: LaneStackProps): Aim | null {
  const kind = kindOf(props);
  if (draft === null || kind === null) return null;
  const { from, to } = endsOf(draft, kind);
  return { kind, laneId: draft.laneId, ends: [from, to] };
}

/** The span under the pointer. */
export function draftSpan(draft: Draft | null, { tool }: LaneStackProps): Span | null {
  return draft === null || tool !== "span" ? null : spanOf(draft);
}

/** The box under the pointer, pixels. */
export function draftBox(draft: Draft | null, { tool }: LaneStackProps, stage: Stage): Box | null {
  if (draft === null || tool !== "box") return null;
  const [x, y] = [stage.x(), stage.y(draft.laneId)];
  const [xs, ys] = [
    [toPixel(x, draft.from.time), toPixel(x, draft.to.time)],
    [toPixel(y, draft.from.level), toPixel(y, draft.to.level)],
  ];
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
}

/** A box lower than this share of its lane was drawn for its time alone. */
const flat = 0.15;

function boxOf(draft: Draft, stage: Stage): Parameters<NonNullable<LaneStackProps["onBox"]>>[0] {
  const [low, high] = stage.ranges().get(draft.laneId) ?? [0, 1];
  const [a, b] = [draft.from.level, draft.to.level];
  const isFlat = Math.abs(a - b) < flat * (high - low);
  return { laneId: draft.laneId, span: spanOf(draft), range: isFlat ? null : [Math.min(a, b), Math.max(a, b)] };
}

export interface Drawn {
  readonly draft: Draft;
  readonly isTap: boolean;
}

/** A drag ended, or a tap was made, with a tool: tells the app. */
export function tellDrawn({ draft, isTap }: Drawn, props: LaneStackProps, stage: Stage): void {
  if (props.tool === "spot") props.onSpot?.(draft.laneId, draft.from);
  if (props.tool === "span") props.onSpan?.(isTap ? null : spanOf(draft));
  if (props.tool === "box" && !isTap) props.onBox?.(boxOf(draft, stage));
  const kind = kindOf(props);
  if (kind === null) return;
  const { laneId } = draft;
  const ends = endsOf(isTap ? widened(draft, kind, stage) : draft, kind);
  props.onDimension({ kind: "place", dimension: { kind, laneId, ...ends } });
}

const kindOf = ({ tool }: LaneStackProps): "time" | "level" | null =>
  tool === "time-pair" ? "time" : tool === "level-pair" ? "level" : null;

/** The second end takes the first one's level or time, so that the pair measures one thing; the line goes where the drag ended. */
function endsOf({ from, to }: Draft, kind: "time" | "level"): Pick<DimensionLook, "from" | "to" | "place"> {
  if (kind === "time") return { from, to: { time: to.time, level: from.level }, place: to.level };
  return { from, to: { time: from.time, level: to.level }, place: to.time };
}

/** A tap's pair, ready to be dragged: its second end a little later, or higher. */
function widened(draft: Draft, kind: "time" | "level", stage: Stage): Draft {
  const { time, level } = draft.from;
  const [low, high] = stage.ranges().get(draft.laneId) ?? [0, 1];
  const rise = tapShare * (high - low);
  const run = tapShare * stage.secondsPerPixel() * stage.size().width;
  const up = level + rise < high ? rise : -rise;
  const to: Spot =
    kind === "time" ? { time: time + run, level: level + up } : { time: time + run / 2, level: level + up };
  return { ...draft, to };
}

const spanOf = ({ from, to }: Draft): Span => ({
  from: Math.min(from.time, to.time),
  to: Math.max(from.time, to.time),
});

/** Lanes carry free text as unit; a reading knows a closed set. What is not in it is shown without a unit. */
const unitOf = (laneId: string, { lanes }: LaneStackProps): Unit => {
  const unit = lanes.find((lane) => lane.id === laneId)?.unit ?? "1";
  return units.find((known) => known === unit) ?? "1";
};
