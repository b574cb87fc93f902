// A crowded trace on a lane's canvas: its outline where it is a line, bars where it covers whole areas.

import { drawBand } from "../../drawing/band.ts";
import type { Mapping } from "../../drawing/paths.ts";
import type { Colours } from "../stage/colours.ts";
import type { TraceStyle } from "../stage/trace-style.ts";
import type { TraceWindow } from "../stage/types.ts";

export interface Crowd {
  readonly outline: Path2D;
  /** Left, top and height of one column after the other, canvas pixels. */
  readonly bars: readonly number[];
}

/** Canvas pixels. */
export interface CrowdSheet {
  readonly left: number;
  readonly columns: number;
  /** Device pixels per CSS pixel. */
  readonly ratio: number;
}

export function crowdOf(
  window: TraceWindow,
  [x, y]: readonly [Mapping, Mapping],
  { width, dash }: TraceStyle,
  { left, columns, ratio }: CrowdSheet,
): Crowd {
  const [on = 0, off = 0] = dash.map((length) => Math.round(length * ratio));
  const dashes = off > 0 ? { dash: [on, off] as const } : {};
  const [outline, bars] = [new Path2D(), [] as number[]];
  const shape = { left: Math.round(left), columns: Math.ceil(columns), thickness: width * ratio, ...dashes };
  drawBand(window, x, y, shape, { pen: outline, bar: (...bar) => bars.push(...bar) });
  return { outline, bars };
}

/** How much of its colour a front keeps where it covers whole areas: the rear behind it shines through. */
const veil = 0.6;

/** The bars; the outline is the canvas's own to fill. Expects to be clipped to the lane. */
export function drawCrowd(
  ctx: CanvasRenderingContext2D,
  { bars }: Crowd,
  { trace, token, alpha }: TraceStyle,
  colours: Colours,
): void {
  ctx.globalAlpha = alpha * (trace.look === "front" ? veil : 1);
  ctx.fillStyle = colours[token];
  for (let i = 0; i < bars.length; i += 3) ctx.fillRect(bars[i]!, bars[i + 1]!, 1, bars[i + 2]!);
}
