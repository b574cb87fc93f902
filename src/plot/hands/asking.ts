// What hands and keys ask for is kept, and told once per animation frame.

import type { Seconds } from "../../signal/numbers/units.ts";
import { frame } from "../stage/frame.ts";
import type { View } from "../stage/types.ts";

export interface Pointed {
  readonly time: Seconds | null;
  /** Read by finger or key: it stays when the hand is gone. */
  readonly isKept: boolean;
}

export interface Asking {
  /** The view asked for, or the one in force: what the next movement starts from. */
  current(): View;
  view(next: View): void;
  /** The instant that was pointed at last. */
  touched(): Seconds | null;
  cursor(pointed: Pointed): void;
  /** Along by so many seconds more; final where the hand lets go, after all that it did before. */
  slide(by: Seconds, isFinal?: boolean): void;
  stop(): void;
}

export function makeAsking(props: {
  readonly view: View;
  readonly onView: (view: View) => void;
  readonly onCursor?: (time: Seconds | null, isKept: boolean) => void;
  readonly onSlide?: (by: Seconds, isFinal: boolean) => void;
}): Asking {
  let view: View | null = null;
  let cursor: Pointed | null = null;
  let touched: Seconds | null = null;
  let [slid, isLetGo]: [Seconds, boolean] = [0, false];
  const tell = () => {
    const [wanted, at] = [view, cursor];
    view = null;
    cursor = null;
    const [by, isFinal] = [slid, isLetGo];
    [slid, isLetGo] = [0, false];
    if (by !== 0 || isFinal) props.onSlide?.(by, isFinal);
    if (wanted !== null) props.onView(wanted);
    if (at !== null) props.onCursor?.(at.time, at.isKept);
  };
  return {
    current: () => view ?? props.view,
    view: (next) => {
      view = next;
      frame.queue(tell);
    },
    cursor: (pointed) => {
      cursor = pointed;
      touched = pointed.time ?? touched;
      frame.queue(tell);
    },
    slide: (by, isFinal = false) => {
      slid += by;
      isLetGo ||= isFinal;
      frame.queue(tell);
    },
    touched: () => touched,
    stop: () => frame.drop(tell),
  };
}
