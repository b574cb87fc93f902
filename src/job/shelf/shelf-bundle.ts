// A shelf trace as one zip, to be shared between workshops: shelf.json says what it is, trace.npy holds the samples.

import { strToU8 } from "fflate";
import type { Entries, ZipFault, ZipLimits } from "../../capture/archives/zip-entries.ts";
import { unreadable } from "../../capture/bytes/sources.ts";
import { type Role, roles } from "../../capture/model/capture.ts";
import type { Corrections } from "../../capture/model/take.ts";
import { type Outcome, ProblemError } from "../../problem.ts";
import { isRecord } from "../record/checks.ts";
import { type Columns, readColumns } from "./columns.ts";
import { longestWord, newer } from "./shelf-format.ts";
import { type ShelfTrace, type ShelfWords, shelfWords } from "./shelf-trace.ts";

/** 1 held samples as they were corrected, and did not say how; 2 holds them as recorded, with the corrections. */
const bundleVersion = 2;

/** What a bundle brings: words that are only shown, and samples that are read and measured anew as any file is. */
export interface ShelfBundle {
  readonly words: ShelfWords;
  readonly keptAt: string;
  readonly isSimulated: boolean;
  readonly bank: 1 | 2;
  /** As recorded, by column name; names that are no role are left to be guessed. */
  readonly roles: Readonly<Record<string, Role>>;
  /** By the ids that the channels of `samples` get when it is read. */
  readonly corrections: Corrections;
  readonly rowsAreSimultaneous: boolean;
  /** A NumPy array file. */
  readonly samples: Blob;
}

/** What an unpacked bundle may weigh, bytes: protects the page from archives that swell without end. */
const heaviest = 2 ** 30;
const heaviestWords = 2 ** 20;
/** Only the two entries by their exact names are unpacked, so no path in the archive is ever followed. */
export const shelfLimits: ZipLimits = { named: { "shelf.json": heaviestWords, "trace.npy": heaviest }, others: 0 };

/** What goes into the zip; `samples` is a NumPy array file of the columns, as recorded. */
export function shelfEntries<S extends Uint8Array | Blob>(
  trace: ShelfTrace,
  samples: S,
  columns: Columns,
): Readonly<Record<string, Uint8Array | S>> {
  const { keptAt, isSimulated, bank, choices } = trace;
  const words = Object.fromEntries(shelfWords.map((key) => [key, trace[key]]));
  const said = { version: bundleVersion, ...words, keptAt, isSimulated, bank, ...columns };
  const simultaneous = choices.rowsAreSimultaneous ? { rowsAreSimultaneous: true } : {};
  return { "shelf.json": strToU8(JSON.stringify({ ...said, ...simultaneous }, null, 2)), "trace.npy": samples };
}

/**
 * Reads what was unpacked within `shelfLimits`, from anywhere: texts are cut to what is shown.
 *
 * @returns a Problem "damaged", "too-large", "unreadable" or "newer-version".
 */
export async function readShelfEntries(unpacked: Entries | ZipFault, name: string): Promise<Outcome<ShelfBundle>> {
  try {
    if (unpacked === "too-large") throw swollen(name);
    if (unpacked === "unreadable") throw unreadable(name);
    if (unpacked === "damaged") throw notAShelfTrace(name);
    const { "shelf.json": text, "trace.npy": samples } = unpacked;
    if (!text || !samples) throw notAShelfTrace(name);
    return { ok: true, value: { ...saidIn(parsed(await text.text(), name), name), samples } };
  } catch (error) {
    if (error instanceof ProblemError) return { ok: false, problem: error.problem };
    throw error;
  }
}

function parsed(text: string, name: string): Record<string, unknown> {
  try {
    const value: unknown = JSON.parse(text);
    if (isRecord(value)) return value;
  } catch {
    // Said below.
  }
  throw notAShelfTrace(name);
}

function saidIn(said: Record<string, unknown>, name: string): Omit<ShelfBundle, "samples"> {
  const { version, bank, keptAt } = said;
  if (typeof version !== "number" || version < 1) throw notAShelfTrace(name);
  if (version > bundleVersion) throw new ProblemError(newer(name, version, bundleVersion));
  const words = Object.fromEntries(shelfWords.map((key) => [key, plain(said[key])])) as unknown as ShelfWords;
  return {
    words: { ...words, name: words.name || "Unnamed trace" },
    keptAt: typeof keptAt === "string" && !Number.isNaN(Date.parse(keptAt)) ? keptAt : new Date(0).toISOString(),
    isSimulated: said.isSimulated === true,
    bank: bank === 2 ? 2 : 1,
    roles: rolesIn(said.roles),
    corrections: version === 1 ? {} : readColumns(said.corrections),
    rowsAreSimultaneous: said.rowsAreSimultaneous === true,
  };
}

/** Text only, without control characters or marks that turn its direction, no longer than a shelf shows. */
function plain(value: unknown): string {
  if (typeof value !== "string") return "";
  return value
    .replace(/[\p{Cc}\p{Cf}\p{Co}]/gu, " ")
    .trim()
    .slice(0, longestWord);
}

function rolesIn(value: unknown): Record<string, Role> {
  if (!isRecord(value)) return {};
  const known = Object.entries(value).filter(([, role]) => isRole(role)) as [string, Role][];
  return Object.fromEntries(known);
}

const isRole = (value: unknown): value is Role => (roles as readonly unknown[]).includes(value);

const notAShelfTrace = (name: string) =>
  new ProblemError({
    code: "damaged",
    what: "This is not a shelf trace, or it was cut off.",
    where: name,
    remedy: "Choose a zip made with “Export” on a shelf; a recording itself is opened on the bench.",
  });

const swollen = (name: string) =>
  new ProblemError({
    code: "too-large",
    what: `This shelf trace unpacks to more than ${heaviest / 2 ** 30} GB.`,
    where: name,
    remedy: "Ask for an export of a shorter span.",
  });
