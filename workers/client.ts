// What the page imports: a capture worker of its own, with the service's methods. One that dies is started again.

import { proxy, type Remote } from "comlink";
import { type Outcome, type Problem, settle } from "../src/problem.ts";
import { newestOnly } from "./newest-only.ts";
import type { CaptureService, ChannelWindow, WindowRequest } from "./protocol.ts";
import { revivedWorker } from "./revived.ts";
import { type SentService, turnsOf } from "./service/tickets.ts";

export { packFiles, unpackFile } from "./packing/packing.ts";
export { takenSummary } from "./service/taken-summary.ts";

export interface CaptureClient extends CaptureService {
  /**
   * A line of window requests in which the newest wins: at most one is under way, and one that was overtaken while it
   * waited answers null. One line for each thing that draws.
   */
  newestWindow(): (request: WindowRequest) => Promise<readonly ChannelWindow[] | null>;
  /** Ends the worker and all it holds in memory. */
  close(): void;
}

const captureWorker = () => new Worker(new URL("./service/capture.worker.ts", import.meta.url), { type: "module" });

export interface ClientOptions {
  readonly start?: () => Worker;
  /** A worker died, and another has what was at hand; with a problem where not all of it. */
  readonly onRevived?: (problem: Problem | null) => void;
}

export function startCaptureClient({ start = captureWorker, onRevived = () => {} }: ClientOptions = {}): CaptureClient {
  const { ask, remember, forget, close } = revivedWorker(start, onRevived);
  type Call<T> = (remote: Remote<SentService>) => Promise<T>;
  /** The worker's death is a problem like any other. */
  const outcome = async <T>(call: Call<Outcome<T>>, again = true): Promise<Outcome<T>> => {
    const asked = await settle(() => ask(call, again));
    return asked.ok ? asked.value : asked;
  };
  const window = (request: WindowRequest) => ask((remote) => remote.window(request));
  return {
    measure: (request, turn) => outcome((remote) => turnsOf(remote).measure(request, turn)),
    whole: (request, turn) => outcome((remote) => turnsOf(remote).whole(request, turn)),
    wholeBefore: (request) => ask((remote) => remote.wholeBefore(request)),
    firstLook: (request, turn) => outcome((remote) => turnsOf(remote).firstLook(request, turn)),
    healthy: (request, turn) => outcome((remote) => turnsOf(remote).healthy(request, turn)),
    comparable: (request, turn) => outcome((remote) => turnsOf(remote).comparable(request, turn)),
    async open(request, onProgress) {
      // Not once more: it may be this very file that no worker survives.
      const opened = await outcome((remote) => remote.open(request, proxy(onProgress)), false);
      if (opened.ok) remember(opened.value.id, request);
      return opened;
    },
    cancelOpen: () => ask((remote) => remote.cancelOpen()),
    async reopen(captureId, choices) {
      const opened = await outcome((remote) => remote.reopen(captureId, choices));
      if (opened.ok) remember(captureId, { file: null, name: opened.value.name, choices });
      return opened;
    },
    kept: (...given) => ask((remote) => remote.kept(...given)),
    file: (captureId) => ask((remote) => remote.file(captureId)),
    wholeFile: (captureId) => outcome((remote) => remote.wholeFile(captureId)),
    sha256: (captureId) => outcome((remote) => remote.sha256(captureId)),
    stored: () => ask((remote) => remote.stored()),
    removeStored: (captureId) => ask((remote) => remote.removeStored(captureId)),
    forget(captureId) {
      forget(captureId);
      return ask((remote) => remote.forget(captureId));
    },
    warnings: (take) => ask((remote) => remote.warnings(take)),
    window,
    valuesAt: (...asked) => ask((remote) => remote.valuesAt(...asked)),
    snap: (request) => ask((remote) => remote.snap(request)),
    lineUp: (request) => outcome((remote) => remote.lineUp(request)),
    lineUpRun: (request) => outcome((remote) => remote.lineUpRun(request)),
    firstCrossing: (request) => outcome((remote) => remote.firstCrossing(request)),
    preview: (file, name, choices) => ask((remote) => remote.preview(file, name, choices)),
    saveSpan: (request, watching) => outcome((remote) => turnsOf(remote).saveSpan(request, watching)),
    rehearse: () => ask((remote) => remote.rehearse()),
    newestWindow: () => newestOnly(window),
    close,
  };
}
