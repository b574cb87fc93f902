// What lies below the traces on a lane's canvas: guide lines, and envelopes of what is usual.

import { drawLine, type Mapping, toPixel } from "../drawing/paths.ts";
import type { Colours } from "./colours.ts";
import type { Envelope, LaneLook, Range } from "./types.ts";

export interface Under {
  readonly lane: LaneLook;
  readonly range: Range;
  readonly colours: Colours;
  /** Device pixels per CSS pixel. */
  readonly ratio: number;
}

/** Canvas pixels. */
export interface Sheet {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export function drawGuides(
  ctx: CanvasRenderingContext2D,
  sheet: Sheet,
  y: Mapping,
  { lane, range, colours, ratio }: Under,
): void {
  ctx.save();
  ctx.beginPath();
  ctx.strokeStyle = colours.soft;
  ctx.globalAlpha = 0.55;
  ctx.lineWidth = ratio;
  ctx.setLineDash([2 * ratio, 4 * ratio]);
  for (const guide of lane.guides.filter((level) => level > range[0] && level < range[1])) {
    const at = Math.round(toPixel(y, guide)) + 0.5;
    ctx.moveTo(sheet.left, at);
    ctx.lineTo(sheet.left + sheet.width, at);
  }
  ctx.stroke();
  ctx.restore();
}

/** A pale band from low to high, and the median as a dashed line. */
export function drawEnvelopes(
  ctx: CanvasRenderingContext2D,
  sheet: Sheet,
  [x, y]: readonly [Mapping, Mapping],
  { lane, colours, ratio }: Under,
): void {
  ctx.save();
  ctx.beginPath();
  ctx.rect(sheet.left, sheet.top, sheet.width, sheet.height);
  ctx.clip();
  for (const envelope of lane.envelopes ?? []) {
    ctx.fillStyle = ctx.strokeStyle = colours[envelope.look];
    ctx.globalAlpha = 0.18;
    ctx.fill(bandPath(envelope, x, y));
    const middle = new Path2D();
    drawLine({ times: envelope.times, values: envelope.middle, dense: false }, x, y, middle);
    ctx.globalAlpha = 0.7;
    ctx.lineWidth = 1.2 * ratio;
    ctx.setLineDash([6 * ratio, 4 * ratio]);
    ctx.stroke(middle);
  }
  ctx.restore();
}

/** One ring per run without a gap: out along the high edge, back along the low one. */
function bandPath({ times, low, high }: Envelope, x: Mapping, y: Mapping): Path2D {
  const path = new Path2D();
  for (let from = 0; from < times.length; from++) {
    if (Number.isNaN(low[from]! + high[from]!)) continue;
    let to = from;
    while (to + 1 < times.length && !Number.isNaN(low[to + 1]! + high[to + 1]!)) to++;
    path.moveTo(toPixel(x, times[from]!), toPixel(y, high[from]!));
    for (let i = from; i <= to; i++) path.lineTo(toPixel(x, times[i]!), toPixel(y, high[i]!));
    for (let i = to; i >= from; i--) path.lineTo(toPixel(x, times[i]!), toPixel(y, low[i]!));
    path.closePath();
    from = to;
  }
  return path;
}
