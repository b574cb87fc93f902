// Lets waiting messages through, so that a cancel is heard, and heeds it.

import { ProblemError } from "../problem.ts";

const longest = 40; // ms of work between two breaths
let last = 0;

/** @throws ProblemError "cancelled" when the user has cancelled. */
export async function breathe(signal: AbortSignal, name: string): Promise<void> {
  if (performance.now() - last > longest) {
    await new Promise((resume) => setTimeout(resume, 0));
    last = performance.now();
  }
  if (signal.aborted) throw cancelled(name);
}

function cancelled(name: string): ProblemError {
  return new ProblemError({
    code: "cancelled",
    what: `Opening ${name} was cancelled.`,
    remedy: "Open it again when you need it; everything else is as it was.",
  });
}
