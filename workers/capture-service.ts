// What the capture worker offers, as a plain object: tests call it without a Worker.

import { transfer } from "comlink";
import type { ReadReport } from "../src/capture/reader.ts";
import { type Outcome, ProblemError, settle } from "../src/problem.ts";
import { blobSource } from "./blob-source.ts";
import type { Engine } from "./engine.ts";
import { HeldCapture } from "./held-capture.ts";
import type { CaptureService, CaptureSummary, ChannelWindow } from "./protocol.ts";
import { sha256Of } from "./sha256.ts";
import { nearest } from "./snap.ts";
import { summaryOf } from "./summary.ts";
import { valueAt } from "./values-at.ts";
import { type Trace, windowOf } from "./window.ts";

export function createCaptureService(engine: Engine): CaptureService {
  const captures = new Map<string, HeldCapture>();
  let opening: AbortController | null = null;

  const summary = (held: HeldCapture): CaptureSummary => summaryOf(held, engine.warningsOf(held.view, held.bank));

  function traces(captureId: string, channelIds: readonly string[]): [channelId: string, trace: Trace][] {
    const held = captures.get(captureId);
    return channelIds.flatMap((id) => {
      const trace = held?.trace(id);
      return trace ? [[id, trace]] : [];
    });
  }

  /** Runs `work` on a capture at hand. */
  function on<T>(captureId: string, work: (held: HeldCapture) => T): Promise<Outcome<T>> {
    return settle(() => {
      const held = captures.get(captureId);
      if (!held) throw notAtHand();
      return work(held);
    });
  }

  return {
    async open({ file, name, choices }, onProgress) {
      opening?.abort(cancelled(name));
      const mine = new AbortController();
      opening = mine;
      const { signal } = mine;
      const report: ReadReport = { signal, progress: (done, total) => void onProgress(done, total) };
      const outcome = await settle(async () => {
        const source = blobSource(file, name);
        const capture = await engine.read(source, choices, report);
        const id = await sha256Of(source, signal);
        signal.throwIfAborted();
        const held = new HeldCapture(id, file, capture, choices.bank);
        captures.set(id, held);
        return summary(held);
      });
      if (opening === mine) opening = null;
      return outcome;
    },

    async cancelOpen() {
      opening?.abort(cancelled("The file"));
    },

    async reopen(captureId) {
      return on(captureId, summary);
    },

    async kept(captureId) {
      return captures.has(captureId) ? null : notAtHand().problem;
    },

    async file(captureId) {
      return captures.get(captureId)?.file ?? null;
    },

    async forget(captureId) {
      captures.delete(captureId);
    },

    correct(captureId, corrections, bank) {
      return on(captureId, (held) => {
        held.correct(corrections, bank);
        return summary(held);
      });
    },

    async window({ captureId, channelIds, span, width }) {
      const windows: ChannelWindow[] = traces(captureId, channelIds).map(([channelId, trace]) => ({
        channelId,
        ...windowOf(trace, span, width),
      }));
      const buffers = windows.flatMap(({ times, values }) => [times.buffer, values.buffer]);
      return transfer(windows, buffers);
    },

    async valuesAt(captureId, channelIds, time) {
      return traces(captureId, channelIds).map(([channelId, trace]) => valueAt(channelId, trace, time));
    },

    async snap({ captureId, channelIds, ...wish }) {
      return nearest(wish, traces(captureId, channelIds));
    },

    measure(captureId, span) {
      return on(captureId, (held) => engine.measure(held.view, held.bank, span));
    },

    whole(captureId, edits) {
      return on(captureId, (held) => engine.whole(held.view, held.bank, edits));
    },
  };
}

function cancelled(name: string): ProblemError {
  return new ProblemError({
    code: "cancelled",
    what: `${name} was not opened: reading was cancelled.`,
    remedy: "Open it again when you want it.",
  });
}

function notAtHand(): ProblemError {
  return new ProblemError({
    code: "unreadable",
    what: "This recording is not at hand any more.",
    remedy: "Open its file again.",
  });
}
