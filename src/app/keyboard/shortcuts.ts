// The keys of the bench: one table, used by the page and shown by the help sheet.

import { onCleanup } from "solid-js";
import { holdScales } from "../../job/edits/lanes.ts";
import type { Tool } from "../../plot/stage/types.ts";
import type { Ground } from "../core/ground.ts";
import type { Sheets } from "../core/sheets.ts";
import type { Dimensions } from "../dimensions/dimensions.ts";
import type { Exhibits } from "../exhibits/exhibits.ts";
import type { LiftOffs } from "../lift-offs/lift-offs.ts";
import type { Instants } from "../reading-out/instants.ts";
import type { SameRun } from "../same-run/same-run.ts";

export interface Shortcut {
  /** As shown: "Ctrl+Z". */
  readonly keys: string;
  readonly says: string;
  /** Null: handled where the focus is; listed for the help sheet only. */
  readonly matches: ((event: KeyboardEvent) => boolean) | null;
  readonly run: () => void;
}

/** What the keys reach. */
export interface Reached extends Pick<Ground, "bench" | "view" | "shown" | "setSpan"> {
  readonly dimensions: Dimensions;
  readonly instants: Instants;
  readonly liftOffs: LiftOffs;
  readonly exhibits: Exhibits;
  readonly sameRun: SameRun;
  readonly sheets: Sheets;
}

export function shortcutsOf(reached: Reached): readonly Shortcut[] {
  return [...going(reached), ...onTraces(reached), ...making(reached), ...inPlace];
}

/** To another place or another view. */
function going({ view, instants, liftOffs }: Reached): readonly Shortcut[] {
  const goTo = () => document.querySelector<HTMLInputElement>(".go-to input")?.focus();
  return [
    { keys: "N", says: "Next lift-off", matches: plain("n"), run: liftOffs.next },
    { keys: "B", says: "Previous lift-off", matches: plain("b"), run: liftOffs.previous },
    { keys: "A", says: "See all", matches: plain("a"), run: view.seeAll },
    {
      keys: "+",
      says: "Zoom in",
      matches: (e) => !isCommand(e) && (e.key === "+" || e.key === "="),
      run: () => view.zoom(0.6, instants.touched()),
    },
    { keys: "−", says: "Zoom out", matches: plain("-"), run: () => view.zoom(1 / 0.6, instants.touched()) },
    { keys: "[", says: "Back to the view before", matches: plain("["), run: view.back },
    { keys: "]", says: "Forward again", matches: plain("]"), run: view.forward },
    { keys: "G", says: "Go to: a lift-off, a kind of running, a time", matches: plain("g"), run: goTo },
  ];
}

/** Tools, scales, reading out. */
function onTraces({ bench, dimensions, instants }: Reached): readonly Shortcut[] {
  const pick = (tool: Tool) => () => dimensions.setTool(dimensions.tool() === tool ? "pan" : tool);
  const readOut = () => {
    instants.start();
    requestAnimationFrame(() => document.querySelector<SVGGElement>(".instant-grip")?.focus());
  };
  const holdInstant = () => instants.hold(instants.held() === null ? instants.at() : null);
  const isHeld = () => bench.state().lanes.some((lane) => lane.scale !== "fit");
  const toggleHold = () => bench.edit((state) => holdScales(state, isHeld() ? "fit" : dimensions.scales()));
  return [
    { keys: "Z", says: "Zoom to a box", matches: plain("z"), run: pick("box") },
    { keys: "H", says: "Hold the scales, or let them fit", matches: plain("h"), run: toggleHold },
    { keys: "T", says: "Time pair", matches: plain("t"), run: pick("time-pair") },
    { keys: "L", says: "Level pair", matches: plain("l"), run: pick("level-pair") },
    { keys: "S", says: "Choose a span", matches: plain("s"), run: pick("span") },
    { keys: "R", says: "Read all values in the middle of the view; arrows move on", matches: plain("r"), run: readOut },
    { keys: "M", says: "Hold the instant that is read, or let it go", matches: plain("m"), run: holdInstant },
  ];
}

/** What is made of it, undone, let go of; and this list. */
function making({
  bench,
  shown,
  setSpan,
  dimensions,
  instants,
  liftOffs,
  exhibits,
  sameRun,
  sheets,
}: Reached): readonly Shortcut[] {
  const letGo = () => {
    dimensions.setTool("pan");
    liftOffs.place(null);
    shown.clear();
    setSpan(null);
    instants.clear();
  };
  return [
    { keys: "E", says: "Make exhibit", matches: plain("e"), run: () => void exhibits.make() },
    { keys: ",", says: "Same run, other recording: earlier", matches: plain(","), run: () => sameRun.nudge(-1) },
    { keys: ".", says: "Same run, other recording: later", matches: plain("."), run: () => sameRun.nudge(1) },
    {
      keys: "Ctrl+Z",
      says: "Undo",
      matches: (e) => isCommand(e) && !e.shiftKey && e.key.toLowerCase() === "z",
      run: bench.undo,
    },
    {
      keys: "Ctrl+Shift+Z",
      says: "Redo",
      matches: (e) => isCommand(e) && ((e.shiftKey && e.key.toLowerCase() === "z") || e.key.toLowerCase() === "y"),
      run: bench.redo,
    },
    { keys: "Esc", says: "Let go of the tool, the span and the evidence", matches: plain("Escape"), run: letGo },
    {
      keys: "?",
      says: "This list",
      matches: (e) => !isCommand(e) && e.key === "?",
      run: () => sheets.open("keyboard"),
    },
  ];
}

/** Keys that the lanes and dimensions handle while they have the focus. */
const inPlace: readonly Shortcut[] = (
  [
    ["← →", "On the lanes: pan. On an end of a dimension: move it"],
    ["C, X", "On an end of a dimension: snap to a crossing, to an extreme"],
    ["P", "On a cursor pair: pin it"],
    ["Enter", "On a dimension: type a value or its label"],
    ["Delete", "On a dimension: remove it"],
  ] as const
).map(([keys, says]) => ({ keys, says, matches: null, run: () => {} }));

/** Listens on the whole page; typing in a field and open sheets are left alone, wherever the focus is then. */
export function useShortcuts(
  shortcuts: readonly Shortcut[],
  isOn: () => boolean,
  { hasLetters }: { readonly hasLetters: () => boolean },
): void {
  const listen = (event: KeyboardEvent) => {
    if (isSingle(event) && !hasLetters()) return;
    if (!isOn() || event.defaultPrevented || isTyping(event.target) || isSheetOpen()) return;
    const found = shortcuts.find((one) => one.matches?.(event));
    if (!found) return;
    event.preventDefault();
    found.run();
  };
  document.addEventListener("keydown", listen);
  onCleanup(() => document.removeEventListener("keydown", listen));
}

/** A letter, figure or sign alone: they can be turned off, since speech and shaking hands strike them unmeant (WCAG 2.2, 2.1.4). */
const isSingle = (event: KeyboardEvent) => event.key.length === 1 && !isCommand(event) && !event.altKey;

const isCommand = (event: KeyboardEvent) => event.ctrlKey || event.metaKey;

const plain = (key: string) => (event: KeyboardEvent) =>
  !isCommand(event) && !event.altKey && event.key.toLowerCase() === key.toLowerCase();

const isTyping = (target: EventTarget | null) =>
  target instanceof Element && target.closest("input:not([type=checkbox]), textarea, select") !== null;

const isSheetOpen = () => document.querySelector("dialog[open]") !== null;
