// What was measured of a kept recording, beside it in the browser's storage: each answer in a file named after its identity.
//
// The first line of a file is a digest of the identity and of what follows: a file that was cut short, or was changed, or
// belongs to another question with the same name, is as if not there.

import { removeQuietly, swapIn, textOf, writeAt } from "./private-files.ts";

const prefix = "answer-";

/** The newest so many are kept of a recording. */
const most = 8;

/** One that was not written to its end is none. */
export const isAnswer = (name: string): boolean => /^answer-[0-9a-f]+$/.test(name);

/** @returns null where it is not kept, or cannot be read. */
export async function readAnswer(folder: FileSystemDirectoryHandle, identity: string): Promise<unknown> {
  const text = await textOf(folder, await nameOf(identity));
  if (text === null) return null;
  const end = text.indexOf("\n");
  const body = text.slice(end + 1);
  return text.slice(0, end) === (await digestOf(`${identity}\n${body}`)) ? JSON.parse(body, whole) : null;
}

/** Written under another name, then moved to its own. */
export async function writeAnswer(folder: FileSystemDirectoryHandle, identity: string, answer: unknown): Promise<void> {
  const body = JSON.stringify(answer, plain);
  const bytes = new TextEncoder().encode(`${await digestOf(`${identity}\n${body}`)}\n${body}`);
  const { signal } = new AbortController();
  await swapIn(folder, await nameOf(identity), (handle) => writeAt(handle, bytes, 0, signal));
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

const nameOf = async (identity: string): Promise<string> => prefix + (await digestOf(identity)).slice(0, 32);

/** SHA-256, hex. */
async function digestOf(text: string): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text)));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** Numbers that JSON has no word for. */
interface Odd {
  readonly oddNumber: string;
}

const plain = (_key: string, value: unknown): unknown =>
  typeof value === "number" && !Number.isFinite(value) ? ({ oddNumber: `${value}` } satisfies Odd) : value;

const whole = (_key: string, value: unknown): unknown =>
  value !== null && typeof value === "object" && "oddNumber" in value ? Number((value as Odd).oddNumber) : value;
