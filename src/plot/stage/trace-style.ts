// How a trace is drawn: colour, and as the second cue its weight. One table for lanes, keys and overview.

import type { LineLayer } from "../../drawing/layer.ts";
import { type Token, traceToken } from "./colours.ts";

export interface TraceStyle {
  readonly trace: LineLayer;
  readonly token: Token;
  /** CSS pixels. */
  readonly width: number;
  readonly dash: readonly number[];
  readonly alpha: number;
  readonly dotRadius: number;
}

const widths = { front: 1.4, rear: 2.4, other: 1.4 } as const;
/** What lies behind comes first; of the rest the thin front is drawn last, so that both show where they meet. */
const thin = 0.9;
const dashes = { dashed: [6, 4], dotted: [2, 3] } as const;
const order = { other: 0, rear: 1, front: 2 } as const;

/** Styles of a lane's traces, in the order they are drawn. */
export function traceStyles(traces: readonly LineLayer[]): readonly TraceStyle[] {
  let others = 0;
  return traces
    .map((trace) => {
      const width = trace.isThin ? thin : widths[trace.look];
      const token = traceToken(trace.look, trace.look === "other" && !trace.isBehind ? others++ : 0);
      const dash = trace.stroke ? dashes[trace.stroke] : [];
      return {
        trace,
        token,
        width,
        dash,
        alpha: trace.isUnseen ? 0 : trace.isBehind ? 0.6 : 1,
        dotRadius: 1.1 + width / 2,
      };
    })
    .sort((a, b) => rank(a.trace) - rank(b.trace));
}

const rank = (trace: LineLayer): number => (trace.isBehind ? -3 : 0) + order[trace.look];
