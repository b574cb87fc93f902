// Who refers to what: which recordings jobs name, what their pictures weigh, and which pictures no job names.

import { readJob } from "../record/format.ts";
import type { SetAside } from "./aside.ts";

export interface Holdings {
  readonly jobs: readonly JobHolding[];
  /** Pictures that no job names: left behind by a kill between picture and record. */
  readonly orphans: readonly Picture[];
}

export interface JobHolding {
  readonly id: string;
  /** Recordings that it names; of a record that cannot be read, everything in it that may be the name of one. */
  readonly captureIds: readonly string[];
  /** Bytes of its pictures. */
  readonly pictures: number;
}

export interface Picture {
  readonly jobId: string;
  readonly name: string;
  /** Bytes. */
  readonly size: number;
}

/** SHA-256, hex. */
const captureName = /[0-9a-f]{64}/g;

/** SHA-256 or UUID. */
const nameOfOne = /[0-9a-f]{64}|[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}/g;

/** Whether a job's text names a picture: by its name, or by the id of the exhibit or photo that its name is made of. */
export function isNamedIn(text: string, picture: string): boolean {
  return [picture, ...(picture.match(nameOfOne) ?? [])].some((name) => text.includes(name));
}

/**
 * @param jobs   as they lie in storage, by their keys.
 * @param sizes  of the pictures, bytes, by their keys: "JOB/NAME".
 * @param aside  what cannot be read may still be put right: what it names stays.
 */
export function holdingsOf(
  jobs: readonly (readonly [id: string, text: string])[],
  sizes: readonly (readonly [key: string, size: number])[],
  aside: readonly Pick<SetAside, "id" | "text">[],
): Holdings {
  const texts = new Map([...aside.map(({ id, text }) => [id, text] as const), ...jobs]);
  const pictures = sizes.map(([key, size]): Picture => {
    const end = key.indexOf("/");
    return { jobId: key.slice(0, end), name: key.slice(end + 1), size };
  });
  const isNamed = ({ jobId, name }: Picture) => isNamedIn(String(texts.get(jobId) ?? ""), name);
  return {
    jobs: [...texts].map(([id, text]) => ({
      id,
      captureIds: capturesIn(String(text)),
      pictures: pictures.filter((one) => one.jobId === id).reduce((sum, { size }) => sum + size, 0),
    })),
    orphans: pictures.filter((one) => !isNamed(one)),
  };
}

function capturesIn(text: string): readonly string[] {
  const read = readJob(text, "saved job");
  return read.ok ? read.value.captures.map(({ id }) => id) : [...new Set(text.match(captureName))];
}
