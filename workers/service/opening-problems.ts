// What can stand against the opening of a file, beside what its reader finds.

import { type Problem, ProblemError } from "../../src/problem.ts";

export function storageTrouble(error: unknown): Problem | null {
  if (!(error instanceof ProblemError)) return null;
  const { code } = error.problem;
  return code === "storage-full" || code === "storage-denied" ? error.problem : null;
}

/** What browsers throw when there is no room for an array: they share the kind, not the words. */
export const isOutOfMemory = (error: unknown): boolean =>
  error instanceof RangeError && /allocat|memory|array length/i.test(error.message);

export function tooLarge(name: string): ProblemError {
  return new ProblemError({
    code: "too-large",
    what: `${name} holds more samples than this browser has memory for.`,
    remedy: "Close other tabs and open it again, or save a shorter part or fewer channels from the recorder.",
  });
}

/** Neither in memory nor in storage. */
export function noRoom(name: string, { code }: Problem): ProblemError {
  const [why, remedy] =
    code === "storage-full"
      ? ["has no room left for it", "Remove recordings you no longer need, or free space on the disk"]
      : ["may not be used by this page", "Allow storage for this page, or leave private browsing"];
  return new ProblemError({
    code,
    what: `${name} holds more samples than memory has room for, and the browser's storage ${why}.`,
    remedy: `${remedy}, and open it again; or save a shorter part or fewer channels from the recorder.`,
  });
}

export function cancelled(name: string): ProblemError {
  return new ProblemError({
    code: "cancelled",
    what: `${name} was not opened: reading was cancelled.`,
    remedy: "Open it again when you want it.",
  });
}
