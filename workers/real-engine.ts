// The engine the capture worker runs: what of it has landed so far. The rest says that it cannot be done yet.

import { readCapture } from "../src/capture/readers.ts";
import { warningsOf } from "../src/exhaust/warnings.ts";
import { ProblemError } from "../src/problem.ts";
import type { Engine } from "./engine.ts";
import { sha256Of } from "./sha256.ts";
import { captureStore } from "./store/capture-store.ts";

export const engine: Engine = {
  read: readCapture,
  nameOf: (_file, source, signal) => sha256Of(source, signal),
  warningsOf,
  measure: () => {
    throw notYet("measuring");
  },
  whole: () => {
    throw notYet("measuring");
  },
  store: captureStore,
};

function notYet(doing: string): ProblemError {
  return new ProblemError({
    code: "not-possible-here",
    what: `This build is not complete: ${doing} is not in it.`,
    remedy: "Use a newer build.",
  });
}
