// The engine the capture worker runs: what is measured goes to threads of its own, sized by the machine.

import { proxy, type Remote } from "comlink";
import type { Capture } from "../../src/capture/model/capture.ts";
import { readCapture } from "../../src/capture/readers.ts";
import { warningsOf } from "../../src/exhaust/findings/warnings.ts";
import { ProblemError } from "../../src/problem.ts";
import type { Engine, Subject } from "../held/engine.ts";
import type { ColumnsHeld, SentCapture, WholeRule } from "../measuring/columns-held.ts";
import { isSentInAnInstant, MeasuringThread } from "../measuring/measuring.ts";
import { partOf } from "../measuring/progress.ts";
import { MeasuringQueue } from "../measuring/queue.ts";
import { rehearsal } from "../measuring/rehearsal.ts";
import { nameOf } from "../naming/naming.ts";
import type { OnProgress, Turn, WholeChoices } from "../protocol.ts";
import type { Version } from "../store/answers.ts";
import { captureStore } from "../store/capture-store.ts";
import { rehearseReading } from "./rehearsing.ts";
import { roomOf } from "./room.ts";

/** One for what the bench shows and one beside it; more where there are cores for them. */
const threads = Array.from(
  { length: Math.max(2, Math.min(6, navigator.hardwareConcurrency - 1)) },
  () => new MeasuringThread(),
);
const queue = new MeasuringQueue(threads);

/** Digests of all sources that measure; the build sets them (see vite.config.ts). */
declare const measuredBy: Version | undefined;

/** Share of the time that bringing samples into memory takes, where that takes any. */
const bringing = 0.3;

type Held = Remote<ColumnsHeld>;

const unheard: OnProgress = () => {};

/** Brings the samples when their turn has come. */
function measured<T>(
  subject: Subject,
  what: "span" | "whole",
  { urgency, signal, onProgress = unheard }: Turn,
  work: (held: Held, sent: SentCapture, onProgress: OnProgress, capture: Capture) => Promise<T>,
): Promise<T> {
  return queue.run({
    about: `${what} ${subject.identity}`,
    urgency,
    signal,
    async work(thread) {
      let brought = 0;
      const onShare = (share: number) => {
        brought = bringing;
        onProgress(bringing * share, 1);
      };
      const capture = await subject.bring(onShare);
      return thread.measure(subject.identity, capture, partOf(onProgress, brought, 1), (held, sent, tell) =>
        work(held, sent, tell, capture),
      );
    },
  });
}

/** The store in another thread, where one is free before it is wanted. */
function storeBeside(capture: Capture, rule: WholeRule, { urgency, signal }: Turn) {
  const giving = new AbortController();
  let isBegun = false;
  const study = queue.run({
    about: `store ${rule.identity}`,
    urgency,
    signal: signal ? AbortSignal.any([signal, giving.signal]) : giving.signal,
    async work(thread) {
      isBegun = true;
      return thread.measure(rule.identity, capture, unheard, (held, sent) => held.store(sent, rule));
    },
  });
  study.catch(() => {}); // whoever waits for it hears of it
  return { study, hasBegun: () => isBegun, giveUp: () => giving.abort() };
}

/** Without what cannot be sent. */
const ruleOf = ({ identity, bank }: Subject, choices: WholeChoices): WholeRule => ({ identity, bank, choices });

/** What a first answer takes. */
const firstThreads = threads.slice(0, 2);

export const engine: Engine = {
  async rehearse(isWanted) {
    const inThreads = firstThreads.map((thread) => thread.rehearse(rehearsal, isWanted));
    await rehearseReading({ read: readCapture, warningsOf }, isWanted);
    await Promise.all(inThreads);
  },
  read(...asked) {
    for (const thread of firstThreads) thread.start();
    return readCapture(...asked);
  },
  nameOf,
  warningsOf,
  measure: (subject, rule, turn) =>
    measured(subject, "span", turn, (held, capture, onProgress) =>
      held.measure(capture, { ...rule, bank: subject.bank }, onProgress),
    ),
  measureStored: (stored, bank, rule, { urgency, signal, onProgress = unheard }) =>
    queue.run({
      about: stored.id,
      urgency,
      signal,
      async work(thread) {
        const outcome = await thread.start().measureStored(stored, { ...rule, bank }, proxy(onProgress));
        if (!outcome.ok) throw new ProblemError(outcome.problem);
        return outcome.value;
      },
    }),
  whole: (subject, choices, turn) => {
    const rule = ruleOf(subject, choices);
    return measured(subject, "whole", turn, async (held, sent, onProgress, capture) => {
      const beside = turn.urgency === "answer" && isSentInAnInstant(capture) ? storeBeside(capture, rule, turn) : null;
      if (!beside) return held.whole(sent, rule, onProgress);
      await held.wholeButStore(sent, rule, onProgress);
      if (beside.hasBegun()) return held.wholeWithStore(sent, rule, await beside.study);
      beside.giveUp();
      return held.whole(sent, rule, onProgress);
    });
  },
  firstLook: (subject, choices, { urgency, signal }) =>
    queue.run({
      about: `first ${subject.identity}`,
      urgency,
      signal,
      async work(thread) {
        const capture = await subject.bring(() => {});
        if (!isSentInAnInstant(capture)) return null;
        const rule = ruleOf(subject, choices);
        return thread.measure(subject.identity, capture, unheard, (held, sent) => held.firstLook(sent, rule));
      },
    }),
  healthy: (subject, { choices, fitted }, turn) =>
    measured(subject, "whole", turn, (held, capture) => held.healthy(capture, ruleOf(subject, choices), fitted)),
  comparable: (subject, choices, turn, known) =>
    measured(subject, "whole", turn, (held, capture, onProgress) =>
      held.comparable(capture, ruleOf(subject, choices), known, onProgress),
    ),
  version: typeof measuredBy === "object" ? measuredBy : null,
  room: roomOf((navigator as { readonly deviceMemory?: number }).deviceMemory),
  // A page that came over plain http from another machine has neither files nor locks of its own.
  store: globalThis.isSecureContext ? captureStore : null,
};
