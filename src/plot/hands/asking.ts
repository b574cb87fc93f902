// What hands and keys ask for is kept, and told once per animation frame.

import type { Seconds } from "../../signal/numbers/units.ts";
import { frame } from "../stage/frame.ts";
import type { View } from "../stage/types.ts";

export interface Asking {
  /** The view asked for, or the one in force: what the next movement starts from. */
  current(): View;
  view(next: View): void;
  cursor(time: Seconds | null): void;
  stop(): void;
}

export function makeAsking(props: {
  readonly view: View;
  readonly onView: (view: View) => void;
  readonly onCursor?: (time: Seconds | null) => void;
}): Asking {
  let view: View | null = null;
  let cursor: Seconds | null | undefined;
  const tell = () => {
    const [wanted, at] = [view, cursor];
    view = null;
    cursor = undefined;
    if (wanted !== null) props.onView(wanted);
    if (at !== undefined) props.onCursor?.(at);
  };
  return {
    current: () => view ?? props.view,
    view: (next) => {
      view = next;
      frame.queue(tell);
    },
    cursor: (time) => {
      cursor = time;
      frame.queue(tell);
    },
    stop: () => frame.drop(tell),
  };
}
