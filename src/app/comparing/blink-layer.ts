// Blinking between suspect and reference: one of the two is drawn at a time, on a scale that fits both. A look; nothing is saved.

import { type Accessor, createEffect, createSignal, on, onCleanup } from "solid-js";
import { type LineLayer, linesOf } from "../../drawing/layer.ts";
import type { LaneLook } from "../../plot/stage/types.ts";
import type { LayerKind } from "../lanes/layers.ts";

/** Which of the two is seen. */
export type Blinked = "suspect" | "reference";

export interface Blinking {
  /** Null while both are drawn. */
  readonly seen: Accessor<Blinked | null>;
  /** The next of the two by hand; with the last, by itself from now on, unless the user wants less movement. */
  start(): void;
  turn(): void;
  stop(): void;
}

/** Each is seen for so long, ms: less than one change a second, far below what may harm (WCAG 2.2, 2.3.1: three a second). */
const beat = 1200;

/** @param isThere  whether there is a reference to blink to. */
export function createBlinking(isThere: Accessor<boolean>): Blinking {
  const [seen, setSeen] = createSignal<Blinked | null>(null);
  let timer: ReturnType<typeof setInterval> | undefined;
  const turn = () => setSeen((now) => (now === "reference" ? "suspect" : "reference"));
  const stop = () => {
    clearInterval(timer);
    setSeen(null);
  };
  createEffect(on(isThere, (there) => there || stop(), { defer: true }));
  onCleanup(() => clearInterval(timer));
  return {
    seen,
    start() {
      turn();
      clearInterval(timer);
      if (!matchMedia("(prefers-reduced-motion: reduce)").matches) timer = setInterval(turn, beat);
    },
    turn,
    stop,
  };
}

/** Lines of the other stay in the lane unseen, so that scales and keys keep still; a lane that holds one of the two alone stays. */
export function createBlinkLayer({ seen }: Pick<Blinking, "seen">): LayerKind {
  return {
    lay(lanes, { paper }) {
      const now = seen();
      return now === null || paper ? lanes : lanes.map((lane) => blinked(lane, now));
    },
  };
}

function blinked(lane: LaneLook, now: Blinked): LaneLook {
  if (!linesOf(lane).some(({ source }) => source === "reference")) return lane;
  const isOther = ({ source }: LineLayer) => (source === "reference") !== (now === "reference");
  const layers = lane.layers.map((layer) => {
    if (layer.form === "band") return layer;
    if (isOther(layer)) return { ...layer, isUnseen: true };
    // What stands pale behind its own filtered line stays so.
    const isOwn = layer.source !== "reference";
    return { ...layer, isBehind: isPale(layer) && (isOwn || layer.look === "other") };
  });
  return { ...lane, layers };
}

/** Of lines that have no colour of their own the paler stays so: else it would take the next one's. */
const isPale = ({ isBehind }: LineLayer): boolean => isBehind === true;
