// Bringing recordings onto the bench: from a file, from the browser's storage, read another way, or the sample job.

import { type Accessor, createSignal } from "solid-js";
import type { CaptureSummary } from "../../../workers/protocol.ts";
import type { ReadChoices } from "../../capture/model/reader.ts";
import { isBundle } from "../../job/bundle/bundle.ts";
import { adaptBench, defaultBench } from "../../job/edits/bench.ts";
import { changeJob, keepCapture } from "../../job/edits/make.ts";
import type { CaptureRecord, Job } from "../../job/record/job.ts";
import type { Problem } from "../../problem.ts";
import { subject } from "../core/context.ts";
import type { Ground } from "../core/ground.ts";
import type { Offer } from "../same-run/same-run.ts";
import { openBundle } from "./open-bundle.ts";
import { rememberedChoices } from "./remembered-choices.ts";

/** A file whose reading is in question: by the reader, or by the user. */
export interface Question {
  readonly file: Blob;
  readonly name: string;
  readonly choices: ReadChoices;
  /** Why the reader asks; null when the user does. */
  readonly problem: Problem | null;
}

export interface Opening {
  /** Adds a recording to the job, or opens a job bundle. The bench and the job stay as they are when it fails. */
  open(file: Blob, name: string, choices?: ReadChoices): Promise<boolean>;
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

const unnamed = "New job";
/** Larger files are opened without a look at what is unclear in them, bytes. */
const lookedAtFirst = 30e6;

/** @param makeOffer told of a recording that was opened beside another. */
export function createOpening(ground: Ground, makeOffer: (offer: Offer) => void): Opening {
  const { service, captures, desk, notices, bench, captureId, chooseCapture } = ground;
  const [question, ask] = createSignal<Question | null>(null);
  const [missing, setMissing] = createSignal<Problem | null>(null);

  const adopt = (summary: CaptureSummary, choices: ReadChoices) => {
    const onto = bench.record();
    const isNew = !desk.job().captures.some(({ id }) => id === summary.id);
    desk.change((job, at) => nameAfter(keepCapture(job, at, recordOf(job, summary, choices)), at, summary.name));
    setMissing(null);
    chooseCapture(summary.id);
    const opened = bench.record();
    if (onto && opened && isNew) makeOffer({ opened, onto });
    notices.dismiss();
    notices.say(`${summary.name} is open, ${summary.channels.length} channels.`);
    void desk.keeping.follow(summary.id, service.kept(summary.id)).then((problem) => problem && notices.show(problem));
  };
  /** What the user said of files written alike; null when the reader is unsure and nobody has said yet. */
  const choicesFor = async (file: Blob, name: string): Promise<ReadChoices | null> => {
    if (file.size > lookedAtFirst) return {};
    const { likeness, questions } = await service.preview(file, name, {});
    const remembered = likeness === "" ? null : rememberedChoices(likeness);
    const isUnsure = questions.some(({ about, answers }) => about !== "roles" || answers.length > 0);
    return remembered ?? (isUnsure ? null : {});
  };
  const open = async (file: Blob, name: string, said?: ReadChoices): Promise<boolean> => {
    const choices = said ?? (await choicesFor(file, name));
    if (choices === null) {
      ask({ file, name, choices: {}, problem: null });
      return false;
    }
    const outcome = await captures.open(file, name, choices);
    if (outcome.ok) {
      adopt(outcome.value, choices);
      return true;
    }
    const { problem } = outcome;
    if (problem.code === "cancelled") notices.say(problem.what);
    else if (problem.code === "no-time" || problem.code === "rows-lost") ask({ file, name, choices, problem });
    else notices.show(problem);
    return false;
  };
  /** What came out of storage is looked through meanwhile; where it is not what was written, the file is read anew. */
  const watch = async ({ id, fileName, choices }: CaptureRecord) => {
    const problem = await desk.keeping.follow(id, service.kept(id));
    if (!problem) return;
    notices.show(problem);
    if (problem.code !== "damaged") return;
    const again = await captures.reopen(id, fileName, choices);
    if (!again.ok && captureId() === id) setMissing(again.problem);
    else if (again.ok) void desk.keeping.follow(id, service.kept(id));
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
  const lookAtLast = async () => {
    const { captures: all, lookedAt } = desk.job();
    const last = all.find(({ id }) => id === lookedAt) ?? all.at(-1);
    if (last) await look(last.id);
    else chooseCapture(null);
  };
  return {
    question,
    ask,
    missing,
    look,
    async open(file, name, choices) {
      const isOne = await isBundle(file).catch(() => false);
      if (!isOne) return open(file, name, choices);
      const isOpened = await openBundle(file, name, ground);
      if (isOpened) await lookAtLast();
      return isOpened;
    },
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

/** The record a recording had in the job, with whatever still fits; else a new one. */
function recordOf(job: Job, { id, name, size, channels }: CaptureSummary, choices: ReadChoices) {
  const before = job.captures.find((c) => c.id === id);
  const bench = before ? adaptBench(before.bench, channels) : defaultBench(channels);
  return {
    id,
    fileName: name,
    sha256: id,
    size,
    choices,
    bench,
    ...(before?.isSimulated && { isSimulated: true as const }),
  };
}

/** A job without a name takes that of its first recording. */
function nameAfter(job: Job, at: string, fileName: string): Job {
  if (job.name !== unnamed || job.captures.length !== 1) return job;
  return changeJob(job, at, { name: fileName.replace(/[.]\w{1,5}([.]gz)?$/, "") });
}

const fileNotAtHand: Problem = {
  code: "unreadable",
  what: "The file of this recording is not at hand: the browser's storage had no room for it beside its samples.",
  remedy: "Open the file again to have it read another way.",
};
