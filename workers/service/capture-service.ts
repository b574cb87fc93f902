// What the capture worker offers, as a plain object: tests call it without a Worker.

import { transfer } from "comlink";
import { blobSource } from "../../src/capture/bytes/sources.ts";
import type { ReadChoices } from "../../src/capture/model/reader.ts";
import { previewCapture } from "../../src/capture/preview.ts";
import { csvPieces } from "../../src/capture/writing/write-csv.ts";
import { writeNpy } from "../../src/capture/writing/write-npy.ts";
import { comparableOf } from "../../src/exhaust/comparing/comparable.ts";
import { isJudged, isSensor } from "../../src/exhaust/terms/channels.ts";
import { type Outcome, type Problem, ProblemError, settle } from "../../src/problem.ts";
import { MemoryBody } from "../body/memory-body.ts";
import { nearest } from "../drawing/snap.ts";
import { valueAt } from "../drawing/values-at.ts";
import type { Engine } from "../held/engine.ts";
import { HeldCapture } from "../held/held-capture.ts";
import { KeptBody } from "../held/kept-body.ts";
import { lineUp, lineUpRun, nextCrossing } from "../measuring/lining-up.ts";
import { partOf } from "../measuring/progress.ts";
import type { CaptureService, CaptureSummary, ChannelWindow, OnProgress, OpenRequest } from "../protocol.ts";
import { sameChoices } from "../store/capture-store.ts";
import { Opening } from "./opening.ts";
import { summaryOf } from "./summary.ts";

export function createCaptureService(engine: Engine): CaptureService {
  const captures = new Map<string, HeldCapture>();
  let opening: Opening | null = null;
  let openings = 0;

  /** A capture at hand, or the one that is being read. */
  function find(captureId: string): HeldCapture | undefined {
    return captures.get(captureId) ?? (opening?.soFar?.id === captureId ? opening.soFar : undefined);
  }

  /** Runs `work` on a capture at hand. */
  function on<T>(captureId: string, work: (held: HeldCapture) => T | Promise<T>): Promise<Outcome<T>> {
    return settle(() => {
      const held = find(captureId);
      if (!held) throw new ProblemError(notAtHand);
      return work(held);
    });
  }

  async function open({ file, name, choices }: OpenRequest, onProgress: OnProgress): Promise<CaptureSummary> {
    opening?.cancel();
    const toOpen = { file, source: blobSource(file, name), choices };
    const mine = new Opening(toOpen, `reading-${++openings}`, engine, onProgress);
    opening = mine;
    try {
      const held = await mine.run();
      captures.get(held.id)?.leave();
      captures.set(held.id, held);
      const summary = summaryOf(held);
      keep(held);
      return summary;
    } finally {
      if (opening === mine) opening = null;
    }
  }

  /** Warnings are found where the samples are in memory; else those known from earlier stand. */
  async function look(held: HeldCapture): Promise<CaptureSummary> {
    if (held.isInMemory || held.isSmall) held.warnings = engine.warningsOf(await held.view(), held.bank);
    return summaryOf(held);
  }

  function keep(held: HeldCapture): void {
    const { id, file, body, choices, warnings } = held;
    const { store } = engine;
    if (!store || !file) return;
    const kept = settle(async () => {
      // Its columns came part by part, and are there.
      if (!(body instanceof MemoryBody)) return store.keepFile(id, file, held.left);
      await store.keep({ id, file, body, choices, warnings }, held.left);
      if (!held.isTooLarge) return;
      const found = await store.find(id);
      if (found) held.page(found);
    });
    held.keeping = kept.then((outcome) => (outcome.ok ? null : outcome.problem));
  }

  async function reopen(captureId: string, choices: ReadChoices): Promise<CaptureSummary> {
    const held = captures.get(captureId);
    if (held && sameChoices(held.choices, choices)) return look(held);
    const found = held ? null : await engine.store?.find(captureId);
    if (found && sameChoices(found.kept.choices, choices)) {
      const file = (await engine.store?.file(captureId)) ?? null;
      const { warnings, fileSize } = found.kept;
      const known = { id: captureId, file, fileSize, body: new KeptBody(found), choices, warnings };
      const again = new HeldCapture({ ...known, room: engine.room });
      captures.set(captureId, again);
      return look(again);
    }
    found?.handle.close();
    const kept = held ? null : await engine.store?.file(captureId);
    const file = held?.file ?? kept;
    if (!file) throw new ProblemError(held || found ? fileNotKept : notKept);
    return open({ file, name: held?.body.name ?? kept?.name ?? "", choices }, () => {});
  }

  return {
    open: (request, onProgress) => settle(() => open(request, onProgress)),

    async cancelOpen() {
      opening?.cancel();
    },

    reopen: (captureId, choices) => settle(() => reopen(captureId, choices)),

    async kept(captureId) {
      const held = captures.get(captureId);
      return held ? held.keeping : notAtHand;
    },

    async file(captureId) {
      return captures.get(captureId)?.file ?? (await engine.store?.file(captureId)) ?? null;
    },

    async forget(captureId) {
      captures.get(captureId)?.leave();
      captures.delete(captureId);
      await engine.store?.remove(captureId);
    },

    correct(captureId, corrections, bank) {
      return on(captureId, (held) => {
        held.correct(corrections, bank);
        return look(held);
      });
    },

    async window({ captureId, channelIds, span, width }) {
      const held = find(captureId);
      const known = channelIds.filter((id) => held?.has(id));
      const windows = known.map((channelId): ChannelWindow => ({ channelId, ...held!.window(channelId, span, width) }));
      const buffers = windows.flatMap(({ times, values }) => [times.buffer, values.buffer]);
      return transfer(windows, buffers);
    },

    async valuesAt(captureId, channelIds, time) {
      const held = find(captureId);
      const known = channelIds.filter((id) => held?.has(id));
      return known.map((channelId) => valueAt(channelId, held!.over(channelId, { from: time, to: time }), time));
    },

    async snap({ captureId, channelIds, ...wish }) {
      const held = find(captureId);
      const span = { from: wish.near - wish.within, to: wish.near + wish.within };
      const known = channelIds.filter((id) => held?.has(id));
      return nearest(
        wish,
        known.map((id) => [id, held!.over(id, span)] as const),
      );
    },

    measure(captureId, span, limits, onProgress = () => {}) {
      const rule = { limits, onProgress };
      return on(captureId, async (held) => {
        const wanted = { span, channels: isSensor };
        const stored = held.stored(wanted);
        if (stored) return engine.measureStored(stored, held.bank, span, rule);
        return engine.measure(await held.view(wanted), held.bank, span, rule);
      });
    },

    whole(captureId, choices, onProgress = () => {}) {
      return on(captureId, async (held) => {
        const wanted = { channels: isJudged };
        const means = held.meansOver(wanted);
        const brought = means ? makingMeans : 0;
        const onBrought = partOf(onProgress, 0, brought);
        const capture = await held.view({ ...wanted, onShare: (share) => onBrought(share, 1) });
        const found = await engine.whole(capture, held.bank, choices, partOf(onProgress, brought, 1));
        return means ? { ...found, means } : found;
      });
    },

    comparable(captureId, whole, limits) {
      return on(captureId, async (held) => comparableOf(await held.view({ channels: isJudged }), whole, limits));
    },

    lineUp: (request) => settle(() => lineUp(find, request)),

    lineUpRun: (request) => settle(() => lineUpRun(find, request)),

    firstCrossing: ({ captureId, ...request }) => on(captureId, (held) => nextCrossing(held, request)),

    preview: (file, name, choices) => previewCapture(blobSource(file, name), choices),

    saveSpan({ captureId, channelIds, span, format }) {
      return on(captureId, async (held) => {
        const isWanted = ({ id }: { readonly id: string }) => channelIds.includes(id);
        if (held.blockOver({ span, channels: isWanted }) > 1) throw new ProblemError(tooMuchToSave);
        const { channels } = await held.view({ span, channels: isWanted });
        const wanted = channels.filter(isWanted);
        return format === "npy"
          ? new Blob([writeNpy(wanted, span)])
          : new Blob([...csvPieces(wanted, span)], { type: "text/csv" });
      });
    },

    async cancelMeasuring(what) {
      engine.cancelMeasuring(what);
    },
  };
}

/** Share of the time of reading a whole larger than memory that its means take. */
const makingMeans = 0.3;

const tooMuchToSave: Problem = {
  code: "too-large",
  what: "This span is larger than memory, and so much cannot be written at once.",
  remedy: "Choose a shorter span, or fewer channels.",
};

const notAtHand: Problem = {
  code: "unreadable",
  what: "This recording is not at hand any more.",
  remedy: "Open its file again.",
};

const notKept: Problem = {
  code: "unreadable",
  what: "This recording is not in the browser's storage: it was not kept, or the browser has cleared it.",
  remedy: "Open its file again; the job's marks on it are still there.",
};

const fileNotKept: Problem = {
  code: "unreadable",
  what: "The browser's storage holds what was read of this recording, but had no room for its file as well.",
  remedy: "Open its file again to have it read another way; the job's marks on it stay.",
};
