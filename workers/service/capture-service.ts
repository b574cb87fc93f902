// What the capture worker offers, as a plain object: tests call it without a Worker.

import { blobSource } from "../../src/capture/bytes/sources.ts";
import type { Remark } from "../../src/capture/model/capture.ts";
import { identityOf, type Take } from "../../src/capture/model/take.ts";
import { previewCapture } from "../../src/capture/preview.ts";
import { settle } from "../../src/problem.ts";
import type { Engine } from "../held/engine.ts";
import type { CaptureService } from "../protocol.ts";
import { createLooking } from "./looking.ts";
import { createMeasures } from "./measures.ts";
import { Recordings } from "./recordings.ts";
import { spanFile } from "./saving.ts";
import { summaryOf } from "./summary.ts";

export function createCaptureService(engine: Engine): CaptureService {
  const recordings = new Recordings(engine);

  /** Warnings are found where the samples are in memory; else those known from earlier stand. */
  async function warnings(take: Take): Promise<readonly Remark[]> {
    const [held, taken] = [recordings.held(take.captureId), recordings.find(take)];
    if (!held || !taken) return [];
    const isAsRead = identityOf(take) === identityOf(held.asRead);
    if (isAsRead || !(held.isInMemory || held.isSmall)) return held.warnings;
    return engine.warningsOf(await taken.view(), taken.bank);
  }

  return {
    ...createLooking(recordings),
    ...createMeasures(engine, recordings),
    open: (request, onProgress) => settle(async () => summaryOf(await recordings.open(request, onProgress))),
    cancelOpen: async () => recordings.cancelOpen(),
    reopen: (captureId, choices) => settle(async () => summaryOf(await recordings.reopen(captureId, choices))),
    kept: (captureId, wasEmptied) => recordings.kept(captureId, wasEmptied),
    file: (captureId) => recordings.file(captureId),
    wholeFile: (captureId) => settle(() => recordings.wholeFile(captureId)),
    sha256: (captureId) => settle(() => recordings.sha256(captureId)),
    stored: () => recordings.stored(),
    async removeStored(captureId) {
      await engine.store?.remove(captureId);
    },
    forget: (captureId) => recordings.forget(captureId),
    warnings,
    preview: (file, name, choices) => previewCapture(blobSource(file, name), choices),
    async rehearse() {
      await engine.rehearse?.(() => recordings.isUsed);
    },
    saveSpan: ({ take, ...request }, watching) => settle(() => spanFile(recordings.take(take), request, watching)),
  };
}
