// The recordings at hand in the worker, as the page knows them: summaries, and the one that is being opened.

import { type Accessor, createSignal } from "solid-js";
import { takenSummary } from "../../../workers/client.ts";
import type { CaptureService, CaptureSummary } from "../../../workers/protocol.ts";
import type { ReadChoices } from "../../capture/model/reader.ts";
import type { BenchState } from "../../job/record/job.ts";
import type { Outcome } from "../../problem.ts";
import { correctionsOf } from "./corrections.ts";

/** A file on its way into the worker. */
export interface BeingRead {
  readonly name: string;
  /** Bytes. */
  readonly done: number;
  readonly total: number;
  /** What has been read by then, good for windows until the reading ends; null before the first. */
  readonly partial: CaptureSummary | null;
}

export interface Captures {
  readonly beingRead: Accessor<BeingRead | null>;
  /** As it was read; null while it is not at hand. */
  asRead(captureId: string): CaptureSummary | null;
  /** As a bench corrects it. */
  summary(captureId: string, bench: Pick<BenchState, "channels" | "bank">): CaptureSummary | null;
  open(file: Blob, name: string, choices: ReadChoices): Promise<Outcome<CaptureSummary>>;
  cancel(): void;
  /** How often a person cancelled. */
  cancels(): number;
  reopen(captureId: string, name: string, choices: ReadChoices): Promise<Outcome<CaptureSummary>>;
}

export function createCaptures(service: CaptureService): Captures {
  const [beingRead, setBeingRead] = createSignal<BeingRead | null>(null);
  const [summaries, setSummaries] = createSignal<Readonly<Record<string, CaptureSummary>>>({});
  let calls = 0;
  let cancels = 0;

  const keep = (outcome: Outcome<CaptureSummary>) => {
    if (outcome.ok) setSummaries((all) => ({ ...all, [outcome.value.id]: outcome.value }));
    return outcome;
  };
  const asRead = (id: string) => summaries()[id] ?? null;
  /** A newer call takes over the progress line; the older one may still answer. */
  const watched = async (name: string, total: number, work: () => Promise<Outcome<CaptureSummary>>) => {
    const call = ++calls;
    setBeingRead({ name, done: 0, total, partial: null });
    try {
      return keep(await work());
    } finally {
      if (call === calls) setBeingRead(null);
    }
  };
  return {
    beingRead,
    asRead,
    summary(id, { channels, bank }) {
      const known = asRead(id);
      return known && takenSummary(known, { corrections: correctionsOf(channels), bank });
    },
    open: (file, name, choices) =>
      watched(name, file.size, () => {
        const call = calls;
        return service.open({ file, name, choices }, (done, total, partial) => {
          if (call !== calls) return;
          setBeingRead((before) => before && { name, done, total, partial: partial ?? before.partial });
        });
      }),
    cancel() {
      cancels++;
      void service.cancelOpen();
    },
    cancels: () => cancels,
    reopen: (id, name, choices) => watched(name, 0, () => service.reopen(id, choices)),
  };
}
