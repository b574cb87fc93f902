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
  const hands = new Hands(targets);
  const place = (event: PointerEvent): Place => {
    const box = element.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };
  const onDown = (event: PointerEvent) => {
    if (event.button !== 0 || hands.areFull || isControl(event.target, element)) return;
    hands.down(event, place(event));
    element.setPointerCapture(event.pointerId);
  };
  const onUp = (event: PointerEvent) => hands.up(event);
  const stop = new AbortController();
  const { signal } = stop;
  element.addEventListener("pointerdown", onDown, { signal });
  element.addEventListener("pointermove", (event) => hands.move(event, place(event)), { signal });
  element.addEventListener("pointerup", onUp, { signal });
  element.addEventListener("pointercancel", onUp, { signal });
  element.addEventListener("pointerleave", (event) => hands.leave(event), { signal });
  return () => {
    hands.letGo();
    stop.abort();
  };
}

type Place = Pick<Press, "x" | "y">;

/** The pointers that are down, two at most, and what they are doing. */
class Hands {
  readonly #targets: PointerTargets;
  readonly #held = new Map<number, Held>();
  #pinched: readonly [Held, Held] | null = null;
  #lastTap: { readonly at: number; readonly press: Press } | null = null;
  #longPress: ReturnType<typeof setTimeout> | undefined;

  constructor(targets: PointerTargets) {
    this.#targets = targets;
  }

  get areFull(): boolean {
    return this.#held.size === 2;
  }

  down({ pointerId, pointerType }: PointerEvent, { x, y }: Place): void {
    const kind = pointerType as HandKind;
    this.#held.set(pointerId, { kind, startX: x, startY: y, x, y, isDrag: false, isLong: false });
    clearTimeout(this.#longPress);
    this.#longPress = setTimeout(() => this.#kept(pointerId), longPressMs);
    if (this.#held.size < 2) return;
    const first = this.#both()[0];
    if (first.isDrag) this.#targets.onDragEnd(first, true);
    this.#pinched = this.#both();
  }

  move({ pointerId, pointerType }: PointerEvent, { x, y }: Place): void {
    const before = this.#held.get(pointerId);
    if (before === undefined) {
      if (pointerType !== "touch") this.#targets.onHover(x);
      return;
    }
    const isDrag = before.isDrag || Math.hypot(x - before.startX, y - before.startY) >= slop[before.kind];
    const press = { ...before, isDrag, ...(isDrag ? { x, y } : {}) };
    this.#held.set(pointerId, press);
    if (this.#pinched !== null) {
      this.#targets.onPinch(this.#pinched, this.#both());
      this.#pinched = this.#both();
    } else if (isDrag) this.#targets.onDrag(press, x - before.x, y - before.y);
  }

  up({ pointerId, type }: PointerEvent): void {
    const press = this.#held.get(pointerId);
    if (press === undefined) return;
    this.#held.delete(pointerId);
    if (this.#pinched !== null) {
      // The finger that stays must not pan from here: it is let go of too.
      this.#held.clear();
      this.#pinched = null;
    } else if (press.isDrag) this.#targets.onDragEnd(press, type === "pointercancel");
    else if (type === "pointerup" && !press.isLong) this.#tap(press);
  }

  /** A lifted finger leaves too, but never hovered: what it read stays. */
  leave({ pointerType }: PointerEvent): void {
    if (this.#held.size === 0 && pointerType !== "touch") this.#targets.onHover(null);
  }

  letGo(): void {
    clearTimeout(this.#longPress);
  }

  #both(): readonly [Held, Held] {
    return [...this.#held.values()] as unknown as readonly [Held, Held];
  }

  #kept(pointerId: number): void {
    const press = this.#held.get(pointerId);
    if (press === undefined || press.isDrag || this.#held.size > 1) return;
    this.#held.set(pointerId, { ...press, isLong: true });
    this.#targets.onLongPress(press);
  }

  #tap(press: Press): void {
    const [now, last] = [performance.now(), this.#lastTap];
    const isDouble = last !== null && now - last.at < doubleTapMs && distance(press, last.press) < doubleTapReach;
    this.#lastTap = isDouble ? null : { at: now, press };
    this.#targets.onTap(press, isDouble);
  }
}

/** A button or handle within the element minds its own presses. */
const isControl = (target: EventTarget | null, element: HTMLElement): boolean =>
  target instanceof Element &&
  target !== element &&
  target.closest(controls) !== null &&
  element.contains(target.closest(controls));

const controls = "button, input, select, textarea, a, [role=slider]";

const distance = (a: Press, b: Press): number => Math.hypot(a.x - b.x, a.y - b.y);
