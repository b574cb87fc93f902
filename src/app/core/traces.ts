// What the lanes and the overview draw: windows asked from the worker for what is in view.

import { type Accessor, createMemo, createSignal } from "solid-js";
import type { CaptureSummary, ChannelWindow, WindowRequest } from "../../../workers/protocol.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import { createLatest } from "./latest.ts";

export type WindowMap = ReadonlyMap<string, ChannelWindow>;
export type AskWindows = (request: WindowRequest) => Promise<readonly ChannelWindow[]>;

export interface Traces {
  readonly windows: Accessor<WindowMap>;
  /** Something has been drawn: what takes longer may start. */
  readonly isDrawn: Accessor<boolean>;
  /** What is in view now is still on its way. */
  readonly isPending: Accessor<boolean>;
  /** Device pixels, as the plot reports them. */
  setWidth(devicePixels: number): void;
}

/** Drawn beyond each edge, as a share of the view: panning finds something there. */
const margin = 0.25;
const none: WindowMap = new Map();

export function createTraces(
  ask: AskWindows,
  summary: Accessor<CaptureSummary | null>,
  channelIds: Accessor<readonly string[]>,
  span: Accessor<Span>,
): Traces {
  const [width, setWidth] = createSignal(0);
  const request = createMemo((): WindowRequest | null => {
    const capture = summary();
    if (!capture || width() === 0) return null;
    const edge = margin * (span().to - span().from);
    return {
      take: capture.take,
      channelIds: channelIds(),
      span: { from: span().from - edge, to: span().to + edge },
      width: Math.ceil(width() * (1 + 2 * margin)),
    };
  });
  const answer = async (wanted: WindowRequest) => new Map((await ask(wanted)).map((w) => [w.channelId, w] as const));
  const latest = createLatest(request, answer, { about: ({ take }) => take.captureId });
  const isDrawn = createMemo(() => latest.value() !== null);
  return { windows: () => latest.value() ?? none, isDrawn, isPending: latest.isPending, setWidth };
}
