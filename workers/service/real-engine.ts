// The engine the capture worker runs: what is measured goes to threads of its own, sized by the machine.

import { proxy } from "comlink";
import { readCapture } from "../../src/capture/readers.ts";
import { warningsOf } from "../../src/exhaust/findings/warnings.ts";
import { ProblemError } from "../../src/problem.ts";
import type { Engine, Subject } from "../held/engine.ts";
import type { WholeRule } from "../measuring/columns-held.ts";
import { MeasuringThread } from "../measuring/measuring.ts";
import { partOf } from "../measuring/progress.ts";
import { MeasuringQueue } from "../measuring/queue.ts";
import { nameOf } from "../naming/naming.ts";
import type { OnProgress, Turn, WholeChoices } from "../protocol.ts";
import { captureStore } from "../store/capture-store.ts";

/** One for what the bench shows and one beside it; more where there are cores for them. */
const threads = Array.from(
  { length: Math.max(2, Math.min(6, navigator.hardwareConcurrency - 1)) },
  () => new MeasuringThread(),
);
const queue = new MeasuringQueue(threads);

/** A digest of all sources that measure; the build sets it (see vite.config.ts). */
declare const measuredBy: string | undefined;

/** Share of the time that bringing samples into memory takes, where that takes any. */
const bringing = 0.3;

const unheard: OnProgress = () => {};

/** Brings the samples when their turn has come, and lets go of them when they are measured. */
function measured<T>(
  subject: Subject,
  what: "span" | "whole",
  { urgency, signal, onProgress = unheard }: Turn,
  work: Parameters<typeof MeasuringThread.prototype.measure<T>>[2],
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
      const measured = await thread.measure(capture, partOf(onProgress, brought, 1), work);
      await thread.rest();
      return measured;
    },
  });
}

/** Without what cannot be sent. */
const ruleOf = ({ identity, bank }: Subject, choices: WholeChoices): WholeRule => ({ identity, bank, choices });

export const engine: Engine = {
  read: readCapture,
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
  whole: (subject, choices, turn) =>
    measured(subject, "whole", turn, (held, capture, onProgress) =>
      held.whole(capture, ruleOf(subject, choices), onProgress),
    ),
  comparable: (subject, choices, turn) =>
    measured(subject, "whole", turn, (held, capture, onProgress) =>
      held.comparable(capture, ruleOf(subject, choices), onProgress),
    ),
  version: typeof measuredBy === "string" ? measuredBy : null,
  store: captureStore,
};
