// What is measured: over the visible window or a chosen span, and over the whole recording.

import { type Accessor, createMemo, createSignal } from "solid-js";
import type {
  CaptureService,
  CaptureSummary,
  SpanReadings,
  SpanRequest,
  WholeChoices,
} from "../../../workers/protocol.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import type { LimitOverrides } from "../../exhaust/terms/limits.ts";
import type { Outcome, Problem } from "../../problem.ts";
import { createLatest } from "./latest.ts";
import { createWhole, telling, type Whole } from "./whole.ts";

export interface Readings extends Whole {
  readonly inSpan: Accessor<SpanReadings | null>;
  /** Why the span could not be measured. */
  readonly spanProblem: Accessor<Problem | null>;
  readonly isMeasuring: Accessor<boolean>;
  /** How much of a long measurement of the span is done, 0 … 1; null while none is under way. */
  readonly spanShare: Accessor<number | null>;
  /** Ends a measurement of the span, and begins it again. */
  readonly stop: () => void;
  readonly again: () => void;
  /** Whether every channel's levels over the span are measured too. */
  readonly hasLevels: Accessor<boolean>;
  setLevels(wanted: boolean): void;
}

/** Measuring waits for panning to rest this long. */
const restMs = 150;
const asDelivered: LimitOverrides = {};

/** The worker does one thing after another: lanes and overview are drawn first. */
export function createReadings(
  service: CaptureService,
  summary: Accessor<CaptureSummary | null>,
  span: Accessor<Span>,
  choices: Accessor<WholeChoices>,
  isDrawn: Accessor<boolean>,
): Readings {
  const about = ({ take }: SpanRequest) => take.captureId;
  const limits = createMemo(() => choices().limits ?? asDelivered);
  const [share, setShare] = createSignal<number | null>(null);
  const [times, setTimes] = createSignal(0);
  const [hasLevels, setLevels] = createSignal(false);
  const spanAsk = createMemo((): SpanRequest | null => {
    const capture = isDrawn() ? summary() : null;
    times();
    const { writing } = choices();
    const more = { ...(hasLevels() ? { withLevels: true } : {}), ...(writing ? { writing } : {}) };
    return capture && { take: capture.take, span: span(), limits: limits(), ...more };
  });
  let byHand = new AbortController();
  const measure = async (ask: SpanRequest, overtaken: AbortSignal) => {
    byHand = new AbortController();
    const signal = AbortSignal.any([overtaken, byHand.signal]);
    const outcome = await telling(setShare, (onProgress) =>
      service.measure(ask, { urgency: "span", signal, onProgress }),
    );
    if (overtaken.aborted) return null;
    return byHand.signal.aborted ? { ok: false as const, problem: stopped } : outcome;
  };
  const measured = createLatest(spanAsk, measure, { about, delayMs: restMs });
  const whole = createWhole(service, summary, choices, isDrawn);
  return {
    inSpan: () => answerOf(measured.value()),
    spanProblem: () => problemOf(measured.value()),
    isMeasuring: measured.isPending,
    spanShare: share,
    stop: () => byHand.abort(),
    again: () => setTimes((so) => so + 1),
    hasLevels,
    setLevels,
    ...whole,
  };
}

const stopped: Problem = {
  code: "cancelled",
  what: "Measuring was stopped: there are no readings of this span.",
  remedy: "Measure it again, or choose a shorter span.",
};

const answerOf = <T>(outcome: Outcome<T> | null): T | null => (outcome?.ok ? outcome.value : null);
const problemOf = (outcome: Outcome<unknown> | null): Problem | null =>
  outcome && !outcome.ok ? outcome.problem : null;
