// The whole capture as lines over the strip's height; worked out once, since it does not move.

import { drawBand } from "../../drawing/band.ts";
import type { Box } from "../../drawing/boxes.ts";
import type { LineLayer } from "../../drawing/layer.ts";
import { drawLine, extentWithin, mapping, textPen } from "../../drawing/paths.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import { type TraceStyle, traceStyles } from "../stage/trace-style.ts";
import type { Range, TraceWindow } from "../stage/types.ts";

export interface OverviewLine {
  readonly style: TraceStyle;
  readonly d: string;
  /** CSS pixels; 0 where `d` is an outline to be filled. */
  readonly width: number;
}

/** Lines are finer here than in the lanes. */
const fineness = 0.6;

/** Traces of one unit share a scale, so that front and rear can be compared here too. */
export function overviewLines(
  traces: readonly LineLayer[],
  windows: ReadonlyMap<string, TraceWindow>,
  whole: Span,
  box: Box,
): readonly OverviewLine[] {
  const scales = unitScales(traces, windows, whole);
  const x = mapping(whole.from, whole.to, box.left, box.right);
  return traceStyles(traces).flatMap((style) => {
    const window = windows.get(style.trace.channelId);
    const scale = scales.get(style.trace.unit);
    if (window === undefined || scale === undefined) return [];
    const pen = textPen();
    const y = mapping(scale[0], scale[1], box.bottom, box.top);
    const columns = Math.max(1, Math.round(box.right - box.left));
    const width = style.width * fineness;
    const isCrowded = window.times.length > 0.7 * columns;
    if (isCrowded) drawBand(window, x, y, { left: box.left, columns, thickness: width }, { pen });
    else drawLine(window, x, y, pen);
    return [{ style, d: pen.text(), width: isCrowded ? 0 : width }];
  });
}

function unitScales(
  traces: readonly LineLayer[],
  windows: ReadonlyMap<string, TraceWindow>,
  whole: Span,
): ReadonlyMap<string, Range> {
  const scales = new Map<string, Range>();
  for (const { channelId, unit } of traces) {
    const window = windows.get(channelId);
    const extent = window && extentWithin(window, whole.from, whole.to);
    if (!extent) continue;
    const [low, high] = scales.get(unit) ?? extent;
    const widest: Range = [Math.min(low, extent[0]), Math.max(high, extent[1])];
    scales.set(unit, widest[0] < widest[1] ? widest : [widest[0] - 1, widest[1] + 1]);
  }
  return scales;
}
