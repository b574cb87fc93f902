// What the page imports: a capture worker of its own, with the service's methods.

import { proxy, releaseProxy, wrap } from "comlink";
import { newestOnly } from "./newest-only.ts";
import type { CaptureService, ChannelWindow, WindowRequest } from "./protocol.ts";
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

export function startCaptureClient(): CaptureClient {
  const worker = new Worker(new URL("./service/capture.worker.ts", import.meta.url), { type: "module" });
  const remote = wrap<SentService>(worker);
  const window = (request: WindowRequest) => remote.window(request);
  return {
    ...turnsOf(remote),
    open: (request, onProgress) => remote.open(request, proxy(onProgress)),
    cancelOpen: () => remote.cancelOpen(),
    reopen: (captureId, choices) => remote.reopen(captureId, choices),
    kept: (captureId) => remote.kept(captureId),
    file: (captureId) => remote.file(captureId),
    wholeFile: (captureId) => remote.wholeFile(captureId),
    stored: () => remote.stored(),
    removeStored: (captureId) => remote.removeStored(captureId),
    forget: (captureId) => remote.forget(captureId),
    warnings: (take) => remote.warnings(take),
    window,
    valuesAt: (take, channelIds, time) => remote.valuesAt(take, channelIds, time),
    snap: (request) => remote.snap(request),
    lineUp: (request) => remote.lineUp(request),
    lineUpRun: (request) => remote.lineUpRun(request),
    firstCrossing: (request) => remote.firstCrossing(request),
    preview: (file, name, choices) => remote.preview(file, name, choices),
    saveSpan: (request) => remote.saveSpan(request),
    newestWindow: () => newestOnly(window),
    close() {
      remote[releaseProxy]();
      worker.terminate();
    },
  };
}
