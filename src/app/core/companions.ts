// The other recordings of the same run that lie on the bench's time axis: which they are, and that they are at hand.

import { type Accessor, createEffect, createMemo, createSignal, on } from "solid-js";
import type { CaptureService, CaptureSummary, ChannelSummary } from "../../../workers/protocol.ts";
import type { Shift } from "../../exhaust/lining-up/line-up.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import { companionChannel } from "../../job/edits/companions.ts";
import type { BenchState, CaptureRecord } from "../../job/record/job.ts";
import type { Problem } from "../../problem.ts";
import { broughtToHand } from "./at-hand.ts";
import type { Bench } from "./bench.ts";
import type { Captures } from "./captures.ts";
import type { JobDesk } from "./job-desk.ts";
import { onOneAxis } from "./on-one-axis.ts";

export interface CompanionView {
  readonly captureId: string;
  readonly record: CaptureRecord;
  /** As its own bench corrects it; null while it is not at hand. */
  readonly summary: CaptureSummary | null;
  /** Its channels under the ids they have on this bench. */
  readonly channels: readonly ChannelSummary[];
  readonly shift: Shift;
  /** Seconds that its samples are told later; 0 while nothing is known. */
  readonly by: number;
}

export interface Companions {
  readonly list: Accessor<readonly CompanionView[]>;
  /** Why one of them is not at hand. */
  problem(captureId: string): Problem | null;
  /** The recording on the bench and all that lies with it. */
  readonly whole: Accessor<Span | null>;
  /** The worker's answers for channels of this bench, whichever recording holds them, on this bench's time. */
  readonly service: Pick<CaptureService, "window" | "valuesAt" | "snap">;
}

export interface CompanionGround {
  readonly service: CaptureService;
  readonly desk: JobDesk;
  readonly captures: Captures;
  readonly bench: Bench;
  readonly summary: Accessor<CaptureSummary | null>;
}

export function createCompanions({ service, desk, captures, bench, summary }: CompanionGround): Companions {
  const [problems, setProblems] = createSignal<Readonly<Record<string, Problem>>>({});
  const records = createMemo(() => desk.job().captures);
  const saved = createMemo(() => bench.state().companions ?? none);
  const list = createMemo(() =>
    saved().flatMap(({ captureId, shift }): CompanionView[] => {
      const record = records().find(({ id }) => id === captureId);
      if (!record) return [];
      const known = captures.summary(captureId, record.bench);
      const channels = known?.channels.map((c) => ({ ...c, id: companionChannel(captureId, c.id) })) ?? [];
      return [{ captureId, record, summary: known, channels, shift, by: shift.shift.value ?? 0 }];
    }),
  );
  const wanted = createMemo(() => {
    const missing = list().filter((one) => !one.summary && !problems()[one.captureId]);
    return summary() ? (missing[0]?.captureId ?? null) : null;
  });
  // One after the other, and after the recording itself: the worker reads one file at a time.
  createEffect(
    on(wanted, async (captureId) => {
      const record = records().find(({ id }) => id === captureId);
      const outcome = record && (await broughtToHand(record, captures));
      if (outcome && !outcome.ok) setProblems({ ...problems(), [record.id]: outcome.problem });
    }),
  );
  return {
    list,
    problem: (captureId) => (captures.asRead(captureId) ? null : (problems()[captureId] ?? null)),
    whole: createMemo(
      () => {
        const own = summary()?.span;
        if (!own) return null;
        const spans = [own, ...list().flatMap(({ summary: theirs, by }) => (theirs ? [later(theirs.span, by)] : []))];
        return { from: Math.min(...spans.map(({ from }) => from)), to: Math.max(...spans.map(({ to }) => to)) };
      },
      null,
      { equals: sameSpan },
    ),
    service: onOneAxis(service, list),
  };
}

const none: NonNullable<BenchState["companions"]> = [];

const later = ({ from, to }: Span, by: number): Span => ({ from: from + by, to: to + by });

const sameSpan = (a: Span | null, b: Span | null): boolean => a?.from === b?.from && a?.to === b?.to;
