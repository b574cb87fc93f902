// Pointer events turned into what hands do: hover, tap, double tap, drag with one pointer, pinch with two.

export type HandKind = "mouse" | "pen" | "touch";

export interface Press {
  readonly kind: HandKind;
  readonly startX: number;
  readonly startY: number;
  readonly x: number;
  readonly y: number;
}

export interface PointerTargets {
  /** Mouse or pen without a button; null when it leaves. */
  readonly onHover: (x: number | null) => void;
  readonly onTap: (press: Press, isDouble: boolean) => void;
  /** Kept down in one place; no tap follows, but a drag may. */
  readonly onLongPress: (press: Press) => void;
  /** Pixels since the last call. */
  readonly onDrag: (press: Press, dx: number, dy: number) => void;
  /** `isGivenUp`: a second pointer came down, or the browser took the pointer away. */
  readonly onDragEnd: (press: Press, isGivenUp: boolean) => void;
  /** Where both pointers were at the last call, and are now. */
  readonly onPinch: (before: readonly [Press, Press], now: readonly [Press, Press]) => void;
}

interface Held extends Press {
  readonly isDrag: boolean;
  readonly isLong: boolean;
}

const slop = { mouse: 4, pen: 6, touch: 9 } as const;
const doubleTapMs = 350;
const longPressMs = 500;
const doubleTapReach = 30;

/** Listens on an element until the returned function is called. Positions are relative to it. */
export function listenForPointers(element: HTMLElement, targets: PointerTargets): () => void {
  const held = new Map<number, Held>();
  let pinched: readonly [Held, Held] | null = null;
  let lastTap: { readonly at: number; readonly press: Press } | null = null;

  const place = (event: PointerEvent) => {
    const box = element.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };
  let longPress: ReturnType<typeof setTimeout> | undefined;
  const kept = (pointerId: number) => {
    const press = held.get(pointerId);
    if (press === undefined || press.isDrag || held.size > 1) return;
    held.set(pointerId, { ...press, isLong: true });
    targets.onLongPress(press);
  };
  const both = () => [...held.values()] as unknown as readonly [Held, Held];

  const onDown = (event: PointerEvent) => {
    if (event.button !== 0 || held.size === 2 || isControl(event.target, element)) return;
    const { x, y } = place(event);
    const kind = event.pointerType as HandKind;
    held.set(event.pointerId, { kind, startX: x, startY: y, x, y, isDrag: false, isLong: false });
    element.setPointerCapture(event.pointerId);
    clearTimeout(longPress);
    longPress = setTimeout(kept, longPressMs, event.pointerId);
    if (held.size < 2) return;
    const first = both()[0];
    if (first.isDrag) targets.onDragEnd(first, true);
    pinched = both();
  };
  const onMove = (event: PointerEvent) => {
    const { x, y } = place(event);
    const before = held.get(event.pointerId);
    if (before === undefined) {
      if (event.pointerType !== "touch") targets.onHover(x);
      return;
    }
    const isDrag = before.isDrag || Math.hypot(x - before.startX, y - before.startY) >= slop[before.kind];
    const press = { ...before, isDrag, ...(isDrag ? { x, y } : {}) };
    held.set(event.pointerId, press);
    if (pinched !== null) {
      targets.onPinch(pinched, both());
      pinched = both();
    } else if (isDrag) targets.onDrag(press, x - before.x, y - before.y);
  };
  const onUp = (event: PointerEvent) => {
    const press = held.get(event.pointerId);
    if (press === undefined) return;
    held.delete(event.pointerId);
    if (pinched !== null) {
      // The finger that stays must not pan from here: it is let go of too.
      held.clear();
      pinched = null;
    } else if (press.isDrag) targets.onDragEnd(press, event.type === "pointercancel");
    else if (event.type === "pointerup" && !press.isLong) tap(press);
  };
  const tap = (press: Press) => {
    const now = performance.now();
    const isDouble =
      lastTap !== null && now - lastTap.at < doubleTapMs && distance(press, lastTap.press) < doubleTapReach;
    lastTap = isDouble ? null : { at: now, press };
    targets.onTap(press, isDouble);
  };
  /** A lifted finger leaves too, but never hovered: what it read stays. */
  const onLeave = (event: PointerEvent) => {
    if (held.size === 0 && event.pointerType !== "touch") targets.onHover(null);
  };

  const stop = new AbortController();
  const { signal } = stop;
  element.addEventListener("pointerdown", onDown, { signal });
  element.addEventListener("pointermove", onMove, { signal });
  element.addEventListener("pointerup", onUp, { signal });
  element.addEventListener("pointercancel", onUp, { signal });
  element.addEventListener("pointerleave", onLeave, { signal });
  return () => {
    clearTimeout(longPress);
    stop.abort();
  };
}

/** A button or handle within the element minds its own presses. */
const isControl = (target: EventTarget | null, element: HTMLElement): boolean =>
  target instanceof Element &&
  target !== element &&
  target.closest(controls) !== null &&
  element.contains(target.closest(controls));

const controls = "button, input, select, textarea, a, [role=slider]";

const distance = (a: Press, b: Press): number => Math.hypot(a.x - b.x, a.y - b.y);
