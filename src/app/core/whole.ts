// What is measured on the whole recording: first what is known of it from before or at a first look, then the answer.

import { type Accessor, createMemo, createSignal } from "solid-js";
import type {
  CaptureService,
  CaptureSummary,
  OnProgress,
  WholeChoices,
  WholeReadings,
  WholeRequest,
} from "../../../workers/protocol.ts";
import type { Outcome, Problem } from "../../problem.ts";
import { createLatest } from "./latest.ts";
import { until } from "./until.ts";

/** What was said before the answer: by another version of the program, or of means of the samples. */
export interface Early {
  readonly kind: "before" | "first";
  readonly captureId: string;
  readonly said: WholeReadings;
  /** What the answer made of it; null until there is one. */
  readonly proved: "same" | "other" | null;
}

export interface Whole {
  /** The answer; until it is there, the one of the program before this. */
  readonly whole: Accessor<WholeReadings | null>;
  /** The answer of this very program alone: what goes on paper. */
  readonly answered: Accessor<WholeReadings | null>;
  readonly early: Accessor<Early | null>;
  /** Why the whole could not be measured. */
  readonly wholeProblem: Accessor<Problem | null>;
  readonly isReadingWhole: Accessor<boolean>;
  /** How much of a long reading of the whole is done, 0 … 1; null while none is under way. */
  readonly wholeShare: Accessor<number | null>;
}

type Service = Pick<CaptureService, "whole" | "wholeBefore" | "firstLook">;

/** The worker does one thing after another: lanes and overview are drawn before anything is measured. */
export function createWhole(
  service: Service,
  summary: Accessor<CaptureSummary | null>,
  choices: Accessor<WholeChoices>,
  isDrawn: Accessor<boolean>,
): Whole {
  const [share, setShare] = createSignal<number | null>(null);
  const [early, setEarly] = createSignal<Early | null>(null);
  const ask = createMemo((): WholeRequest | null => {
    const capture = summary();
    return capture && { take: capture.take, choices: choices() };
  });
  const read = async (asked: WholeRequest, signal: AbortSignal): Promise<Outcome<WholeReadings> | null> => {
    let isOver = false;
    const say = (kind: Early["kind"], said: WholeReadings) => {
      if (!signal.aborted && !isOver) setEarly({ kind, captureId: asked.take.captureId, said, proved: null });
    };
    setEarly(null);
    const before = await service.wholeBefore(asked);
    if (before?.isCurrent) return { ok: true, value: before.answer };
    if (before) say("before", before.answer);
    await until(isDrawn, signal);
    if (signal.aborted) return null;
    if (!before) {
      void service.firstLook(asked, { urgency: "answer", signal }).then((look) => {
        if (look.ok && look.value && isDecided(look.value)) say("first", look.value);
      });
    }
    const outcome = await telling(setShare, (onProgress) =>
      service.whole(asked, { urgency: "answer", signal, onProgress }),
    );
    isOver = true;
    if (signal.aborted) return null;
    setEarly((so) => (so && outcome.ok ? { ...so, proved: saysTheSame(so, outcome.value) } : null));
    return outcome;
  };
  const latest = createLatest(ask, read, { about: ({ take }) => take.captureId });
  const answered = createMemo(() => {
    const outcome = latest.value();
    return outcome?.ok ? outcome.value : null;
  });
  const ofThis = createMemo(() => {
    const known = early();
    return known && known.captureId === summary()?.take.captureId ? known : null;
  });
  return {
    whole: createMemo(() => answered() ?? (ofThis()?.kind === "before" ? ofThis()!.said : null)),
    answered,
    early: ofThis,
    wholeProblem: () => {
      const outcome = latest.value();
      return outcome && !outcome.ok ? outcome.problem : null;
    },
    isReadingWhole: latest.isPending,
    wholeShare: share,
  };
}

/** A first look tells the catalyst's verdict alone; an answer from before is held against the new one finding by finding. */
function saysTheSame({ kind, said }: Early, answer: WholeReadings): "same" | "other" {
  const verdicts = ({ findings }: WholeReadings) =>
    findings.filter(({ id }) => kind === "before" || id === "catalyst").map(({ id, verdict }) => `${id} ${verdict}`);
  return verdicts(said).join() === verdicts(answer).join() ? "same" : "other";
}

/** A look that cannot tell says no more than that the whole is still being read. */
const isDecided = ({ findings }: WholeReadings): boolean =>
  findings.some(({ id, verdict }) => id === "catalyst" && verdict !== "cannot-say");

/** Work that tells how far it is. What it told before it ended may still be on its way then, and is not heeded. */
export async function telling<T>(
  setShare: (share: number | null) => void,
  work: (tell: OnProgress) => Promise<T>,
): Promise<T> {
  let isOver = false;
  try {
    return await work((done, total) => isOver || setShare(done / total));
  } finally {
    isOver = true;
    setShare(null);
  }
}
