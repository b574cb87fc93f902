// How a trace is drawn: colour, and as the second cue its weight. One table for lanes, keys and overview.

import { type Token, traceToken } from "./colours.ts";
import type { TraceLook } from "./types.ts";

export interface TraceStyle {
  readonly trace: TraceLook;
  readonly token: Token;
  /** CSS pixels. */
  readonly width: number;
  readonly dash: readonly number[];
  readonly alpha: number;
  readonly dotRadius: number;
}

const widths = { front: 1.4, rear: 2.4, other: 1.4 } as const;
/** References lie behind; of the rest the thin front is drawn last, so that both show where they meet. */
const order = { other: 0, rear: 1, front: 2 } as const;

/** Styles of a lane's traces, in the order they are drawn. */
export function traceStyles(traces: readonly TraceLook[]): readonly TraceStyle[] {
  let others = 0;
  return traces
    .map((trace) => {
      const width = widths[trace.look];
      const token = traceToken(trace.look, trace.look === "other" && !trace.reference ? others++ : 0);
      const dash = trace.reference ? [6, 4] : trace.companion ? [2, 3] : [];
      return { trace, token, width, dash, alpha: trace.reference ? 0.6 : 1, dotRadius: 1.1 + width / 2 };
    })
    .sort((a, b) => rank(a.trace) - rank(b.trace));
}

const rank = (trace: TraceLook): number => (trace.reference ? -3 : 0) + order[trace.look];
