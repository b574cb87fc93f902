// The names beside a lane's title, each with a piece of its line, and how many rows of them there are.

import { bandKinds, linesOf, ownAndBehind } from "../../drawing/layer.ts";
import { type TraceStyle, traceStyles } from "./trace-style.ts";
import type { LaneLook } from "./types.ts";

/** A lone channel that the title already names needs no key of its own. */
export function keysOf(lane: LaneLook): {
  readonly own: readonly TraceStyle[];
  readonly behind: readonly TraceStyle[];
} {
  const traces = linesOf(lane);
  if (traces.length === 1 && lane.namesTrace) return { own: [], behind: [] };
  const styles = traceStyles(traces);
  const inOrder = traces.map((trace) => styles.find((style) => style.trace === trace)!);
  return ownAndBehind(inOrder, ({ trace }) => trace.of);
}

/** Width of a head, CSS pixels, up to which two names stand side by side and the rest below them: as in plot.css. */
const narrow = 474;

/** How many rows the names of a lane take in a head of this width; all that lies behind has one name. */
export function keyRows(lane: LaneLook, width: number): number {
  if (width > narrow) return 1;
  const { own, behind } = keysOf(lane);
  return Math.max(1, Math.ceil((own.length + Math.min(1, behind.length) + bandKinds(lane).length) / 2));
}
