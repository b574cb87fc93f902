// Dragging one thing by pointer: what it moved by, told at most once per frame, and once more when let go.

import { frame } from "../stage/frame.ts";

export interface DragTargets {
  /** Pixels moved since the press. `isFinal` comes once, at the end; a press without movement ends in onTap instead. */
  readonly onDrag: (dx: number, dy: number, isFinal: boolean) => void;
  readonly onTap?: (() => void) | undefined;
  /** The second of two taps soon after each other; comes after its onTap. */
  readonly onDoubleTap?: (() => void) | undefined;
  readonly onGrab?: (() => void) | undefined;
}

const slop = 4;
const doubleTapMs = 350;
let lastTap: { readonly element: Element; readonly at: number } | null = null;

function tap(element: Element, targets: DragTargets): void {
  const at = performance.now();
  const isDouble = lastTap?.element === element && at - lastTap.at < doubleTapMs;
  lastTap = isDouble ? null : { element, at };
  targets.onTap?.();
  if (isDouble) targets.onDoubleTap?.();
}

/** Starts a drag from a pointerdown; the press goes no further up. */
export function beginDrag(down: PointerEvent, targets: DragTargets): void {
  if (down.button !== 0) return;
  down.stopPropagation();
  const element = down.currentTarget as Element;
  element.setPointerCapture(down.pointerId);
  let moved = { dx: 0, dy: 0 };
  let isDrag = false;
  const tell = () => targets.onDrag(moved.dx, moved.dy, false);
  const move = (event: PointerEvent) => {
    if (event.pointerId !== down.pointerId) return;
    moved = { dx: event.clientX - down.clientX, dy: event.clientY - down.clientY };
    isDrag ||= Math.hypot(moved.dx, moved.dy) >= slop;
    if (isDrag) frame.queue(tell);
  };
  const end = (event: PointerEvent) => {
    if (event.pointerId !== down.pointerId) return;
    frame.drop(tell);
    element.removeEventListener("pointermove", move as EventListener);
    for (const name of ["pointerup", "pointercancel"]) element.removeEventListener(name, end as EventListener);
    if (isDrag) targets.onDrag(moved.dx, moved.dy, true);
    else if (event.type === "pointerup") tap(element, targets);
  };
  element.addEventListener("pointermove", move as EventListener);
  for (const name of ["pointerup", "pointercancel"]) element.addEventListener(name, end as EventListener);
  targets.onGrab?.();
}
