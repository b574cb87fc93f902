// How the page is shown to this person, kept in the browser: size of letters, height of lanes, whether single letters are keys.

import { type Accessor, createEffect, createSignal } from "solid-js";
import { setLetters } from "../../plot/stage/letters.ts";
import { subject } from "../core/context.ts";

export interface Display {
  /** Times the usual size. */
  readonly letters: number;
  /** Times the height that fits in the window. */
  readonly lanes: number;
  readonly letterKeys: boolean;
}

export const letterSizes = [1, 1.15, 1.3] as const;
export const laneHeights = [1, 1.5, 2.2] as const;

const asUsual: Display = { letters: 1, lanes: 1, letterKeys: true };
const place = "tracewright-display";

export interface DisplayState {
  readonly display: Accessor<Display>;
  choose(change: Partial<Display>): void;
}

export const { Context: DisplayContext, use: useDisplay } = subject<DisplayState>("How the page is shown");

export function createDisplay(): DisplayState {
  const [display, setDisplay] = createSignal(kept());
  createEffect(() => {
    const { style } = document.documentElement;
    style.setProperty("--letters", String(display().letters));
    style.setProperty("--lane-height", String(display().lanes));
    setLetters(display().letters);
  });
  return {
    display,
    choose(change) {
      const next = { ...display(), ...change };
      setDisplay(next);
      try {
        localStorage.setItem(place, JSON.stringify(next));
      } catch {
        // storage is denied: the choice lasts as long as the page
      }
    },
  };
}

/** What was chosen before; anything that is not a choice of ours is as usual. */
function kept(): Display {
  try {
    const found = JSON.parse(localStorage.getItem(place) ?? "{}") as Partial<Record<keyof Display, unknown>>;
    return {
      letters: letterSizes.find((size) => size === found.letters) ?? asUsual.letters,
      lanes: laneHeights.find((height) => height === found.lanes) ?? asUsual.lanes,
      letterKeys: found.letterKeys !== false,
    };
  } catch {
    return asUsual;
  }
}
