// A file read onto the bench: what is unclear in it is asked first; read, it is a recording of the job.

import type { CaptureSummary } from "../../../workers/protocol.ts";
import type { ReadChoices } from "../../capture/model/reader.ts";
import type { Preview } from "../../capture/preview.ts";
import { adaptBench, defaultBench } from "../../job/edits/bench.ts";
import { changeJob, keepCapture, unnamed } from "../../job/edits/make.ts";
import type { Job } from "../../job/record/job.ts";
import type { Problem } from "../../problem.ts";
import type { Ground } from "../core/ground.ts";
import type { Offer } from "../same-run/same-run.ts";
import { rememberedChoices } from "./remembered-choices.ts";

/** Larger files are opened without a look at what is unclear in them, bytes. */
const lookedAtFirst = 30e6;

/** A file whose reading is in question: by the reader, or by the user. */
export interface Question {
  readonly file: Blob;
  readonly name: string;
  readonly choices: ReadChoices;
  /** Why the reader asks; null when the user does. */
  readonly problem: Problem | null;
}

export interface Told {
  readonly ask: (question: Question) => void;
  /** A recording was opened beside another. */
  readonly makeOffer: (offer: Offer) => void;
  /** It is on the bench, and the bench shows it. */
  readonly onBench: (captureId: string) => void;
}

/** @returns what reads one file; false where it is not on the bench then, and why is told or asked. */
export function fileReading(ground: Ground, told: Told) {
  return async (file: Blob, name: string, said?: ReadChoices): Promise<boolean> => {
    const choices = said ?? (await choicesFor(ground, file, name));
    if (choices === "cancelled") {
      ground.notices.say(`Opening ${name} was cancelled.`);
      return false;
    }
    if (choices === null) {
      told.ask({ file, name, choices: {}, problem: null });
      return false;
    }
    const outcome = await ground.captures.open(file, name, choices);
    if (outcome.ok) {
      adopt(ground, outcome.value, choices, told);
      return true;
    }
    const { problem } = outcome;
    if (problem.code === "cancelled") ground.notices.say(problem.what);
    else if (problem.code === "no-time" || problem.code === "rows-lost") told.ask({ file, name, choices, problem });
    else ground.notices.show(problem);
    return false;
  };
}

/** What the user said of files written alike; null when the reader is unsure and nobody has said yet. */
async function choicesFor(ground: Ground, file: Blob, name: string): Promise<ReadChoices | null | "cancelled"> {
  if (file.size > lookedAtFirst) return {};
  const preview = await lookedAt(ground, file, name);
  if (preview === "cancelled") return preview;
  const { likeness, questions } = preview;
  const remembered = likeness === "" ? null : rememberedChoices(likeness);
  const isUnsure = questions.some(({ about, answers }) => about !== "roles" || answers.length > 0);
  return remembered ?? (isUnsure ? null : {});
}

/** A file of nothing but line ends takes seconds to be looked at: nobody need wait for it. */
function lookedAt({ service, underWay }: Ground, file: Blob, name: string): Promise<Preview | "cancelled"> {
  return underWay.follow(`Looking at ${name}`, ({ signal }) => {
    const cancelled = new Promise<"cancelled">((tell) => signal.addEventListener("abort", () => tell("cancelled")));
    return Promise.race([service.preview(file, name, {}), cancelled]);
  });
}

/** Takes what was read into the job, and onto the bench. */
function adopt(ground: Ground, summary: CaptureSummary, choices: ReadChoices, told: Told): void {
  const { service, desk, notices, bench } = ground;
  const onto = bench.record();
  const isNew = !desk.job().captures.some(({ id }) => id === summary.id);
  desk.change((job, at) => nameAfter(keepCapture(job, at, recordOf(job, summary, choices)), at, summary.name));
  told.onBench(summary.id);
  const opened = bench.record();
  if (onto && opened && isNew) told.makeOffer({ opened, onto });
  notices.dismiss();
  notices.say(`${summary.name} is open, ${summary.channels.length} channels.`);
  void desk.keeping
    .follow(summary.id, () => service.kept(summary.id))
    .then((problem) => problem && notices.show(problem));
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
