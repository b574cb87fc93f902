// Bringing recordings onto the bench: from a file, from the browser's storage, read another way, or the sample job.

import { type Accessor, createSignal } from "solid-js";
import type { ReadChoices } from "../../capture/model/reader.ts";
import { bundleFolder } from "../../job/bundle/bundle-folder.ts";
import type { CaptureRecord } from "../../job/record/job.ts";
import type { Problem } from "../../problem.ts";
import { subject } from "../core/context.ts";
import type { Ground } from "../core/ground.ts";
import type { Offer } from "../same-run/same-run.ts";
import { createInTurn, type Dropped } from "./in-turn.ts";
import { openBundle } from "./open-bundle.ts";
import { fileReading, type Question } from "./read-file.ts";

export interface Opening {
  /** Adds a recording to the job, or opens a job bundle. The bench and the job stay as they are when it fails. */
  open(file: Blob, name: string, choices?: ReadChoices): Promise<boolean>;
  /** One after the other; what becomes of each is told. */
  openAll(files: readonly Dropped[]): Promise<void>;
  /** The recording of the job that is to be looked at, out of the browser's storage. */
  look(captureId: string): Promise<void>;
  /** The job of the last visit, with the recording that was looked at. */
  restore(): Promise<void>;
  openJob(jobId: string): Promise<void>;
  /** An empty bench; the job that was on it is kept. */
  startJob(): Promise<void>;
  readonly question: Accessor<Question | null>;
  ask(question: Question | null): void;
  /** Opens the question screen for the recording on the bench. */
  readDifferently(): Promise<void>;
  /** Why the recording on the desk is not at hand; its record and bench are kept. */
  readonly missing: Accessor<Problem | null>;
}

export const { Context: OpeningContext, use: useOpening } = subject<Opening>("Opening");

/** @param makeOffer told of a recording that was opened beside another. */
export function createOpening(ground: Ground, makeOffer: (offer: Offer) => void): Opening {
  const { service, desk, notices, bench, chooseCapture } = ground;
  const [question, ask] = createSignal<Question | null>(null);
  const { missing, setMissing, look } = createLooking(ground);
  const onBench = (captureId: string) => {
    setMissing(null);
    chooseCapture(captureId);
  };
  const read = fileReading(ground, { ask, makeOffer, onBench });
  const lookAtLast = async () => {
    const { captures: all, lookedAt } = desk.job();
    const last = all.find(({ id }) => id === lookedAt) ?? all.at(-1);
    if (last) await look(last.id);
    else chooseCapture(null);
  };
  const openOne = async (file: Blob, name: string, choices?: ReadChoices): Promise<boolean> => {
    const folder = await bundleFolder(file).catch(() => null);
    if (folder === null) return read(file, name, choices);
    const isOpened = await openBundle({ file, name, folder }, ground);
    if (isOpened) await lookAtLast();
    return isOpened;
  };
  const inTurn = createInTurn({ open: openOne, question, notices });
  return {
    question,
    ask,
    missing,
    look,
    open: (file, name, choices) => inTurn.one(() => openOne(file, name, choices)),
    openAll: inTurn.all,
    async restore() {
      if (await desk.restore()) await lookAtLast();
    },
    async openJob(jobId) {
      if (await desk.open(jobId)) await lookAtLast();
    },
    async startJob() {
      if (!(await desk.start())) return;
      chooseCapture(null);
      setMissing(null);
    },
    async readDifferently() {
      const record = bench.record();
      if (!record) return;
      const file = await service.file(record.id);
      if (!file) notices.show(fileNotAtHand);
      else ask({ file, name: record.fileName, choices: record.choices, problem: null });
    },
  };
}

/** Recordings of the job, looked at out of the browser's storage. */
function createLooking({ service, captures, desk, notices, captureId, chooseCapture }: Ground) {
  const [missing, setMissing] = createSignal<Problem | null>(null);
  /** What came out of storage is looked through meanwhile; where it is not what was written, the file is read anew. */
  const watch = async ({ id, fileName, choices }: CaptureRecord) => {
    const problem = await desk.keeping.follow(id, () => service.kept(id));
    if (!problem) return;
    notices.show(problem);
    if (problem.code !== "damaged") return;
    const again = await captures.reopen(id, fileName, choices);
    if (!again.ok && captureId() === id) setMissing(again.problem);
    else if (again.ok) void desk.keeping.follow(id, () => service.kept(id));
  };
  const look = async (id: string) => {
    setMissing(null);
    chooseCapture(id);
    const record = desk.job().captures.find((c) => c.id === id);
    if (!record || captures.asRead(id)) return;
    const outcome = await captures.reopen(id, record.fileName, record.choices);
    if (!outcome.ok && captureId() === id) setMissing(outcome.problem);
    if (outcome.ok) void watch(record);
  };
  return { missing, setMissing, look };
}

const fileNotAtHand: Problem = {
  code: "unreadable",
  what: "The file of this recording is not at hand: the browser's storage had no room for it beside its samples.",
  remedy: "Open the file again to have it read another way.",
};
