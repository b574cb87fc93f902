// The browser's refusals to keep something, as Problems.

import type { Problem } from "../../problem.ts";

export function refused(error: unknown): Problem {
  const full = error instanceof DOMException && error.name === "QuotaExceededError";
  return full
    ? {
        code: "storage-full",
        what: "The browser's storage is full; the last change is not saved yet.",
        remedy: "Delete a job or a shelf trace that is done with, or export it as a file.",
      }
    : {
        code: "storage-denied",
        what: "The browser does not let this page keep anything.",
        remedy: "Leave private browsing or allow storage for this page; until then export the job as a bundle.",
      };
}
