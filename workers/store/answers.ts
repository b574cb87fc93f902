// What was measured of a kept recording, beside it in the browser's storage: each answer in a file named after its question.
//
// The first line of a file is a digest of the question and of what follows: a file that was cut short, or was changed, or
// belongs to another question with the same name, is as if not there. The answer lies there with the program that gave it:
// the next program's answer takes its place.

import { removeQuietly, swapIn, textOf, writeAt } from "./private-files.ts";

/** Names a program: by all that measures, and by how its answers are laid out. */
export interface Version {
  readonly sources: string;
  /** An answer of another shape cannot be shown. */
  readonly shapes: string;
}

export interface Answered {
  readonly by: Version;
  readonly answer: unknown;
}

/** What was asked; of all that are asked under one `place` the last is kept alone. */
export interface Asked {
  readonly identity: string;
  readonly place?: string | undefined;
}

const prefix = "answer-";

/** The newest so many are kept of a recording. */
const most = 8;

/** One that was not written to its end is none. */
export const isAnswer = (name: string): boolean => /^answer-[0-9a-f]+$/.test(name);

/** @returns null where it is not kept, or cannot be read. */
export async function readAnswer(folder: FileSystemDirectoryHandle, asked: Asked): Promise<Answered | null> {
  const text = await textOf(folder, await nameOf(asked));
  if (text === null) return null;
  const end = text.indexOf("\n");
  const body = text.slice(end + 1);
  const isWhole = text.slice(0, end) === (await digestOf(`${asked.identity}\n${body}`));
  return isWhole ? (JSON.parse(body, whole) as Answered) : null;
}

/** Written under another name, then moved to its own. */
export async function writeAnswer(folder: FileSystemDirectoryHandle, asked: Asked, answered: Answered): Promise<void> {
  const body = JSON.stringify(answered, plain);
  const bytes = new TextEncoder().encode(`${await digestOf(`${asked.identity}\n${body}`)}\n${body}`);
  const { signal } = new AbortController();
  await swapIn(folder, await nameOf(asked), (handle) => writeAt(handle, bytes, 0, signal));
  await dropOldest(folder);
}

async function dropOldest(folder: FileSystemDirectoryHandle): Promise<void> {
  const found: { readonly name: string; readonly at: number }[] = [];
  for await (const [name, entry] of folder.entries()) {
    if (!isAnswer(name) || entry.kind !== "file") continue;
    found.push({ name, at: (await (entry as FileSystemFileHandle).getFile()).lastModified });
  }
  const old = found.sort((a, b) => b.at - a.at).slice(most);
  for (const { name } of old) await removeQuietly(folder, name);
}

const nameOf = async ({ identity, place }: Asked): Promise<string> =>
  prefix + (await digestOf(place ?? identity)).slice(0, 32);

/** SHA-256, hex. */
async function digestOf(text: string): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text)));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** Numbers, and arrays of single precision, that JSON has no word for. */
interface Odd {
  readonly oddNumber: string;
}
interface Singles {
  readonly singles: readonly number[];
}

function plain(_key: string, value: unknown): unknown {
  if (typeof value === "number" && !Number.isFinite(value)) return { oddNumber: `${value}` } satisfies Odd;
  return value instanceof Float32Array ? ({ singles: [...value] } satisfies Singles) : value;
}

function whole(_key: string, value: unknown): unknown {
  if (value === null || typeof value !== "object") return value;
  if ("oddNumber" in value) return Number((value as Odd).oddNumber);
  return "singles" in value ? Float32Array.from((value as Singles).singles) : value;
}
