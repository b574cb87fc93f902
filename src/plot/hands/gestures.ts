// Mouse, touch, wheel and keys on the lanes: one pointer does what the tool says, two pinch, the wheel zooms. Without a
// tool a mouse reads where it hovers and pans by a drag; a finger reads where it drags, and pans along the time axis.
// Over the scales at the left, drag and wheel move and stretch the scale, which is then held.

import { fromPixel, mapping } from "../../drawing/paths.ts";
import { axisHeight, gutter } from "../stage/layout.ts";
import { draggedRange, type Stage, scaledRange } from "../stage/stage.ts";
import type { LaneStackProps, Spot } from "../stage/types.ts";
import { type Asking, makeAsking } from "./asking.ts";
import { listenForPointers, type Press } from "./pointers.ts";
import { keyed, panned, within, zoomed } from "./view.ts";

/** A press drawn out from one spot to another, or a tap where both are one. */
export interface Draft {
  readonly laneId: string;
  readonly from: Spot;
  readonly to: Spot;
}

export interface GestureTargets {
  /** What is being drawn; null when it is done or given up. */
  readonly onDraft: (draft: Draft | null) => void;
  /** A tool's drag ended, or was a tap. */
  readonly onDrawn: (draft: Draft, isTap: boolean) => void;
  /** Where a finger reads, pixels; null when it was lifted. */
  readonly onFinger: (finger: Finger | null) => void;
}

export interface Finger {
  readonly laneId: string;
  readonly time: number;
  readonly x: number;
  readonly y: number;
}

interface Scene {
  readonly props: LaneStackProps;
  readonly stage: Stage;
  readonly asking: Asking;
  readonly targets: GestureTargets;
}

const wheelZoom = 0.0016;
const trackpadPinch = 5;
const pixelsPerLine = 30;
const leastPinch = 20;
/** Room for a finger on the time axis, which is lower than a fingertip. */
const axisReach = Math.max(44, axisHeight);

/** Listens on the stack's element until the returned function is called. */
export function listenForGestures(
  element: HTMLElement,
  props: LaneStackProps,
  stage: Stage,
  targets: GestureTargets,
): () => void {
  const scene: Scene = { props, stage, asking: makeAsking(props), targets };
  const stop = new AbortController();
  const onWheel = (event: WheelEvent) => {
    event.preventDefault();
    const { left, top } = element.getBoundingClientRect();
    wheel(event, [event.clientX - left, event.clientY - top], scene);
  };
  const onKey = (event: KeyboardEvent) => {
    if (event.target === element) key(event, scene);
  };
  element.addEventListener("wheel", onWheel, { passive: false, signal: stop.signal });
  element.addEventListener("keydown", onKey, { signal: stop.signal });
  const stopPointers = listenForPointers(element, {
    onHover: (x) => scene.asking.cursor({ time: x === null || x < gutter ? null : timeAt(x, scene), isKept: false }),
    onTap: (press, isDouble) => tap(press, isDouble, scene),
    onLongPress: (press) => holdInstant(press, scene),
    onDrag: (press, dx, dy) => drag(press, [dx, dy], scene),
    onDragEnd: (press, isGivenUp) => endDrag(press, isGivenUp, scene),
    onPinch: (before, now) => pinch(before, now, scene),
  });
  return () => {
    stop.abort();
    stopPointers();
    scene.asking.stop();
  };
}

const plotWidth = ({ props, stage }: Scene): number => (props.view.to - props.view.from) / stage.secondsPerPixel();

const timeAt = (x: number, scene: Scene): number => {
  const { from, to } = scene.asking.current();
  return fromPixel(mapping(from, to, gutter, gutter + plotWidth(scene)), x);
};

const draws = ({ props }: Scene): boolean => props.tool !== "pan" && props.tool !== "spot" && props.tool !== "slide";

function draftOf(press: Press, { stage }: Scene): Draft | null {
  const start = stage.spotAt(press.startX, press.startY);
  const box = start && stage.plots().get(start.laneId);
  if (!start || !box) return null;
  const end = stage.spotAt(press.x, Math.min(box.bottom, Math.max(box.top, press.y)));
  return { laneId: start.laneId, from: start.spot, to: end?.spot ?? start.spot };
}

function tap(press: Press, isDouble: boolean, scene: Scene): void {
  if (scene.props.tool === "pan") tapToLook(press, isDouble, scene);
  else if (press.startX >= gutter) {
    const draft = draftOf(press, scene);
    if (draft !== null) scene.targets.onDrawn(draft, true);
  }
}

function tapToLook(press: Press, isDouble: boolean, scene: Scene): void {
  const { props, asking } = scene;
  if (isDouble) asking.view(props.whole);
  else if (press.startX >= gutter) {
    asking.cursor({ time: timeAt(press.x, scene), isKept: press.kind !== "mouse" });
    if (props.selectedDimension !== null) props.onDimension({ kind: "select", id: null });
  }
}

/** Kept down in one place: that instant is held, and what is read from now on is told against it. */
function holdInstant(press: Press, scene: Scene): void {
  if (scene.props.tool !== "pan" || press.startX < gutter || isOnAxis(press, scene)) return;
  const time = timeAt(press.x, scene);
  scene.asking.cursor({ time, isKept: true });
  scene.props.onHoldInstant?.(time);
}

const isOnAxis = ({ startY }: Press, { stage }: Scene): boolean => startY > stage.size().height - axisReach;

const reads = (press: Press, scene: Scene): boolean =>
  press.kind === "touch" && scene.props.tool === "pan" && !isOnAxis(press, scene);

function readAt(press: Press, scene: Scene): void {
  const x = Math.max(gutter, Math.min(press.x, gutter + plotWidth(scene)));
  const time = timeAt(x, scene);
  const laneId = scene.stage.spotAt(x, press.y)?.laneId;
  scene.asking.cursor({ time, isKept: true });
  if (laneId !== undefined) scene.targets.onFinger({ laneId, time, x, y: press.y });
}

function drag(press: Press, [dx, dy]: readonly [number, number], scene: Scene): void {
  const { props, asking, targets, stage } = scene;
  if (press.startX < gutter) dragScale(press, dy, scene);
  else if (draws(scene)) targets.onDraft(draftOf(press, scene));
  else if (reads(press, scene)) readAt(press, scene);
  else if (props.tool === "slide" && !isOnAxis(press, scene)) asking.slide(dx * stage.secondsPerPixel());
  else {
    const { from, to } = asking.current();
    asking.view(panned({ from, to }, props.whole, (-dx * (to - from)) / plotWidth(scene)));
  }
}

function dragScale(press: Press, dy: number, { props, stage }: Scene): void {
  const laneId = stage.spotAt(press.startX, press.startY)?.laneId ?? "";
  const box = stage.plots().get(laneId);
  const range = stage.ranges().get(laneId);
  if (box && range) props.onHold?.(laneId, draggedRange(range, dy, box.bottom - box.top));
}

function endDrag(press: Press, isGivenUp: boolean, scene: Scene): void {
  scene.targets.onFinger(null);
  if (scene.props.tool === "slide") scene.asking.slide(0, true);
  if (press.startX < gutter || !draws(scene)) return;
  const draft = draftOf(press, scene);
  if (draft !== null && !isGivenUp) scene.targets.onDrawn(draft, false);
  scene.targets.onDraft(null);
}

/** From one movement to the next: the instant between the fingers stays between them. */
function pinch(before: readonly [Press, Press], now: readonly [Press, Press], scene: Scene): void {
  const gap = ([a, b]: readonly [Press, Press]) => Math.max(leastPinch, Math.abs(a.x - b.x));
  const middle = ([a, b]: readonly [Press, Press]) => (a.x + b.x) / 2;
  const { from, to } = scene.asking.current();
  const time = timeAt(middle(before), scene);
  const span = ((to - from) * gap(before)) / gap(now);
  const share = (middle(now) - gutter) / plotWidth(scene);
  scene.asking.view(within({ from: time - share * span, to: time + (1 - share) * span }, scene.props.whole));
}

function wheel(event: WheelEvent, [x, y]: readonly [number, number], scene: Scene): void {
  const { props, stage, asking } = scene;
  const unit = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? pixelsPerLine : 1;
  const [dx, dy] = event.shiftKey ? [event.deltaY || event.deltaX, 0] : [event.deltaX, event.deltaY];
  const factor = Math.exp(dy * unit * wheelZoom * (event.ctrlKey ? trackpadPinch : 1));
  const scale = x < gutter ? stage.spotAt(x, y) : null;
  const range = scale && stage.ranges().get(scale.laneId);
  const view = asking.current();
  if (scale && range) props.onHold?.(scale.laneId, scaledRange(range, scale.spot.level, factor));
  else if (Math.abs(dx) > Math.abs(dy)) {
    asking.view(panned(view, props.whole, (dx * unit * (view.to - view.from)) / plotWidth(scene)));
  } else asking.view(zoomed(view, props.whole, timeAt(x, scene), factor));
}

function key(event: KeyboardEvent, { props, stage, asking }: Scene): void {
  if (event.defaultPrevented || event.altKey || event.ctrlKey || event.metaKey) return;
  const along = event.key === "ArrowRight" ? 1 : event.key === "ArrowLeft" ? -1 : 0;
  if (props.tool === "slide" && along !== 0) {
    event.preventDefault();
    asking.slide(along * (event.shiftKey ? 10 : 1) * stage.secondsPerPixel(), true);
    return;
  }
  const next = keyed(asking.current(), props.whole, {
    key: event.key,
    isFast: event.shiftKey,
    about: asking.touched(),
  });
  if (next === null) return;
  event.preventDefault();
  asking.view(next);
}
