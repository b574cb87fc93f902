// Lets waiting messages through, so that a cancel is heard, and heeds it.

import { ProblemError } from "../../problem.ts";

const longest = 20; // ms of work between two breaths
let last = 0;

/** @throws ProblemError "cancelled" when the user has cancelled. */
export async function breathe(signal: AbortSignal, name: string): Promise<void> {
  if (performance.now() - last > longest) {
    await othersFirst();
    last = performance.now();
  }
  if (signal.aborted) throw cancelled(name);
}

/** A message behind those that wait already: a timer would idle for 4 ms (HTML, timers nested more than five deep). */
async function othersFirst(): Promise<void> {
  const { port1, port2 } = new MessageChannel();
  await new Promise((resume) => {
    port1.onmessage = resume;
    port2.postMessage(null);
  });
  port1.close();
}

function cancelled(name: string): ProblemError {
  return new ProblemError({
    code: "cancelled",
    what: `Opening ${name} was cancelled.`,
    remedy: "Open it again when you need it; everything else is as it was.",
  });
}
