// What is measured: over the visible window or a chosen span, and over the whole recording.

import { type Accessor, createMemo } from "solid-js";
import type { CaptureService, CaptureSummary, SpanReadings, WholeReadings } from "../../../workers/protocol.ts";
import type { LiftOffEdit, Span } from "../../exhaust/analysis.ts";
import type { Outcome, Problem } from "../../problem.ts";
import { createLatest } from "./latest.ts";

export interface Readings {
  readonly inSpan: Accessor<SpanReadings | null>;
  /** Why the span could not be measured. */
  readonly spanProblem: Accessor<Problem | null>;
  readonly isMeasuring: Accessor<boolean>;
  readonly whole: Accessor<WholeReadings | null>;
  readonly isReadingWhole: Accessor<boolean>;
}

/** Measuring waits for panning to rest this long. */
const restMs = 150;

export function createReadings(
  service: CaptureService,
  summary: Accessor<CaptureSummary | null>,
  span: Accessor<Span>,
  edits: Accessor<readonly LiftOffEdit[]>,
): Readings {
  const about = ({ id }: { readonly id: string }) => id;
  const spanAsk = createMemo(() => {
    const capture = summary();
    return capture && { id: capture.id, span: span() };
  });
  const measured = createLatest(spanAsk, (ask) => service.measure(ask.id, ask.span), { about, delayMs: restMs });
  const wholeAsk = createMemo(() => {
    const capture = summary();
    return capture && { id: capture.id, edits: edits() };
  });
  const whole = createLatest(wholeAsk, (ask) => service.whole(ask.id, ask.edits), { about });
  return {
    inSpan: () => answerOf(measured.value()),
    spanProblem: () => problemOf(measured.value()),
    isMeasuring: measured.isPending,
    whole: () => answerOf(whole.value()),
    isReadingWhole: whole.isPending,
  };
}

const answerOf = <T>(outcome: Outcome<T> | null): T | null => (outcome?.ok ? outcome.value : null);
const problemOf = (outcome: Outcome<unknown> | null): Problem | null =>
  outcome && !outcome.ok ? outcome.problem : null;
