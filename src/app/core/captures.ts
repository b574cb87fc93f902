// The recordings at hand in the worker, as the page knows them: summaries, and the one that is being opened.

import { type Accessor, batch, createSignal } from "solid-js";
import type { CaptureService, CaptureSummary, ChannelCorrection } from "../../../workers/protocol.ts";
import type { Bank } from "../../capture/model/capture.ts";
import type { ReadChoices } from "../../capture/model/reader.ts";
import type { Outcome } from "../../problem.ts";

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
  /** Null while it is not at hand. A new object when corrections change what it holds. */
  summary(captureId: string): CaptureSummary | null;
  /** How often it was read from its file or storage: each time it stands as recorded, without corrections. */
  readings(captureId: string): number;
  open(file: Blob, name: string, choices: ReadChoices): Promise<Outcome<CaptureSummary>>;
  cancel(): void;
  reopen(captureId: string, name: string, choices: ReadChoices): Promise<Outcome<CaptureSummary>>;
  correct(
    captureId: string,
    corrections: Readonly<Record<string, ChannelCorrection>>,
    bank: Bank,
  ): Promise<Outcome<CaptureSummary>>;
}

export function createCaptures(service: CaptureService): Captures {
  const [beingRead, setBeingRead] = createSignal<BeingRead | null>(null);
  const [summaries, setSummaries] = createSignal<Readonly<Record<string, CaptureSummary>>>({});
  const [readings, setReadings] = createSignal<Readonly<Record<string, number>>>({});
  let calls = 0;

  const keep = (outcome: Outcome<CaptureSummary>) => {
    if (outcome.ok) setSummaries((all) => ({ ...all, [outcome.value.id]: outcome.value }));
    return outcome;
  };
  const keepRead = (outcome: Outcome<CaptureSummary>) =>
    batch(() => {
      if (outcome.ok) setReadings((all) => ({ ...all, [outcome.value.id]: (all[outcome.value.id] ?? 0) + 1 }));
      return keep(outcome);
    });
  /** A newer call takes over the progress line; the older one may still answer. */
  const watched = async (name: string, total: number, work: () => Promise<Outcome<CaptureSummary>>) => {
    const call = ++calls;
    setBeingRead({ name, done: 0, total, partial: null });
    try {
      return keepRead(await work());
    } finally {
      if (call === calls) setBeingRead(null);
    }
  };
  return {
    beingRead,
    summary: (id) => summaries()[id] ?? null,
    readings: (id) => readings()[id] ?? 0,
    open: (file, name, choices) =>
      watched(name, file.size, () => {
        const call = calls;
        return service.open({ file, name, choices }, (done, total, partial) => {
          if (call !== calls) return;
          setBeingRead((before) => before && { name, done, total, partial: partial ?? before.partial });
        });
      }),
    cancel: () => void service.cancelOpen(),
    reopen: (id, name, choices) => watched(name, 0, () => service.reopen(id, choices)),
    correct: async (id, corrections, bank) => keep(await service.correct(id, corrections, bank)),
  };
}
