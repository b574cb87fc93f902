// A third of the work is the fit of the store, which needs nothing of the rest: a second thread does it meanwhile.
// Tried in vain: the sensors over the whole in that thread, too. Each thread translates the code anew that both run, so that the
// longer half fell from 3.1 s of a processor to 2.8 s only, and both together rose by half.

import { once } from "node:events";
import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";
import type { Capture } from "../capture/model/capture.ts";
import { analyse } from "../exhaust/analyse.ts";
import type { Analysis, AnalysisChoices } from "../exhaust/terms/analysis.ts";
import { isJudged } from "../exhaust/terms/channels.ts";
import { answering, type Recall } from "../exhaust/terms/remembered.ts";
import type { StoreStudy } from "../exhaust/terms/store-study.ts";

export interface AskedStore {
  readonly capture: Capture;
  readonly choices: AnalysisChoices;
}

/** Samples beyond which sending them to a second thread is felt, and the store is a small part of the work. */
const mostSent = 6_000_000;

/** Begins before there is a recording, so that starting costs no time. Null with one core, or from sources that a thread cannot load. */
export function storeThread(): Worker | null {
  const here = import.meta.url;
  if (availableParallelism() < 2 || !here.endsWith(".mjs")) return null;
  return new Worker(new URL("./store-thread.mjs", here));
}

/** As `analyse`, with the store from the thread; in this one where there is none, or the recording is too long to be sent. */
export async function analyseOnTwo(
  capture: Capture,
  choices: AnalysisChoices,
  recall: Recall,
  thread: Worker | null,
): Promise<Analysis> {
  const judged = capture.channels.filter(isJudged);
  const samples = judged.reduce((sum, { series }) => sum + series.samples.length, 0);
  const here = (known: Recall) => analyse(capture, choices, () => {}, known);
  if (thread === null || samples > mostSent) return here(recall);
  const told = once(thread, "message");
  told.catch(() => {}); // heard below, once this thread has done its part
  thread.postMessage({ capture: { ...capture, channels: judged }, choices } satisfies AskedStore);
  here(answering(recall, "store", null));
  const [study] = (await told) as [StoreStudy | null];
  return here(answering(recall, "store", study));
}
