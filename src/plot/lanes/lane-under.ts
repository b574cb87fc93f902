// What lies below the traces on a lane's canvas: guide lines, and bands.

import { type BandLayer, bandsOf } from "../../drawing/layer.ts";
import { drawLine, type Mapping, toPixel } from "../../drawing/paths.ts";
import type { Colours } from "../stage/colours.ts";
import type { LaneLook, Range } from "../stage/types.ts";

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

/** Chain line (ISO 128-2 line 04) of the median, so that it is not taken for a reference's dashes; CSS pixels. */
export const chain = [12, 4, 2, 4] as const;
/** CSS pixels between the lines of a hatching, and which way they rise: front and rear differ in grey as well. */
const hatch = { front: { every: 7, rise: -1 }, rear: { every: 7, rise: 1 }, other: { every: 11, rise: 1 } } as const;
/** Of the median, CSS pixels: thin before the catalyst, thick after it, as the traces are. */
export const middleWidth = { front: 1.2, rear: 2, other: 1.2 } as const;

/** A pale, hatched band from low to high, and the median as a chain line. */
export function drawBands(
  ctx: CanvasRenderingContext2D,
  sheet: Sheet,
  [x, y]: readonly [Mapping, Mapping],
  { lane, colours, ratio }: Under,
): void {
  ctx.save();
  ctx.beginPath();
  ctx.rect(sheet.left, sheet.top, sheet.width, sheet.height);
  ctx.clip();
  for (const layer of bandsOf(lane)) {
    ctx.fillStyle = ctx.strokeStyle = colours[layer.look];
    ctx.globalAlpha = 0.18;
    const band = bandPath(layer, x, y);
    if (layer.fill === "grey") ctx.globalAlpha = 0.28;
    ctx.fill(band);
    if (!layer.fill) drawHatch(ctx, sheet, band, { ...hatch[layer.look], ratio });
    if (!layer.middle) continue;
    const middle = new Path2D();
    drawLine({ times: layer.times, values: layer.middle, dense: false }, x, y, middle);
    ctx.globalAlpha = 0.7;
    ctx.lineWidth = middleWidth[layer.look] * ratio;
    ctx.setLineDash(chain.map((length) => length * ratio));
    ctx.stroke(middle);
  }
  ctx.restore();
}

interface Hatch {
  readonly every: number;
  readonly rise: 1 | -1;
  readonly ratio: number;
}

/** Lines at 45° (ISO 128-50) over the band only, from columns where it lies. */
function drawHatch(ctx: CanvasRenderingContext2D, sheet: Sheet, band: Path2D, { every, rise, ratio }: Hatch): void {
  ctx.save();
  ctx.clip(band);
  ctx.beginPath();
  ctx.globalAlpha = 0.45;
  ctx.lineWidth = 0.7 * ratio;
  const { left, top, width, height } = sheet;
  for (let at = left - height; at < left + width + height; at += every * ratio) {
    ctx.moveTo(at, rise > 0 ? top + height : top);
    ctx.lineTo(at + height, rise > 0 ? top : top + height);
  }
  ctx.stroke();
  ctx.restore();
}

/** One ring per run without a gap: out along the high edge, back along the low one. */
function bandPath({ times, low, high }: BandLayer, x: Mapping, y: Mapping): Path2D {
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
