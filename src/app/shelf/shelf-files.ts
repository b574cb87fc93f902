// Shelf traces out of and into files, to be shared between workshops.

import { packFiles, takenSummary, unpackFile } from "../../../workers/client.ts";
import { newId } from "../../job/record/new-id.ts";
import { columnsOf, correctionsThatTell } from "../../job/shelf/columns.ts";
import type { Shelf } from "../../job/shelf/shelf.ts";
import { readShelfEntries, shelfEntries, shelfLimits } from "../../job/shelf/shelf-bundle.ts";
import { type ShelfTrace, shelfVersion } from "../../job/shelf/shelf-trace.ts";
import { type Outcome, ProblemError, settle } from "../../problem.ts";
import { good, readAtHand } from "../core/at-hand.ts";
import { type Hands, measuredOn } from "../core/measured-on.ts";
import { saveFile } from "../parts/save-file.ts";

const everything = { from: -1e12, to: 1e12 };

export function exportTrace(trace: ShelfTrace, { service, captures }: Hands): Promise<Outcome<null>> {
  return settle(async () => {
    const summary = await readAtHand(trace, captures);
    const channels = summary.channels.filter(({ samples }) => samples > 0);
    const request = { take: summary.take, channelIds: channels.map(({ id }) => id), span: trace.span ?? everything };
    const blob = good(await service.saveSpan({ ...request, format: "npy" }));
    const zip = good(await packFiles(shelfEntries(trace, blob, columnsOf(channels, trace.corrections))));
    saveFile(zip, `${fileName(trace.name)}.known-good.zip`);
    return null;
  });
}

/** Whatever it says of itself, its samples are read and measured here as any recording's. */
export function importTrace(file: File, hands: Hands, shelf: Shelf): Promise<Outcome<null>> {
  const { service, captures } = hands;
  return settle(async () => {
    const bundle = good(await readShelfEntries(await unpackFile(file, shelfLimits), file.name));
    const simultaneous = bundle.rowsAreSimultaneous ? { rowsAreSimultaneous: true } : {};
    const choices = { roles: bundle.roles, bank: bundle.bank, ...simultaneous };
    const name = `${fileName(bundle.words.name)}.npy`;
    const summary = good(await captures.open(bundle.samples, name, choices));
    const problem = await service.kept(summary.id);
    if (problem) throw new ProblemError(problem);
    const corrections = correctionsThatTell(summary.channels, bundle.corrections);
    const taken = takenSummary(summary, { corrections, bank: bundle.bank });
    const comparable = { ...(await measuredOn(taken, hands)), name: bundle.words.name };
    const { keptAt, isSimulated, bank, words } = bundle;
    const about = { version: shelfVersion, id: newId(), keptAt, isSimulated, bank, ...words } as const;
    const trace = { ...about, captureId: summary.id, fileName: name, choices, corrections, span: null, comparable };
    return good(await shelf.keep(trace));
  });
}

/** Letters, figures and blanks only: a name from elsewhere becomes a file's. */
const fileName = (name: string) =>
  name
    .replace(/[^\p{L}\p{N} .,-]/gu, "")
    .replace(/[.]{2,}/g, ".")
    .trim()
    .slice(0, 80) || "trace";
