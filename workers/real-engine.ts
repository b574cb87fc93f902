// The engine the capture worker runs.

import { readCapture } from "../src/capture/readers.ts";
import { analyse } from "../src/exhaust/analyse.ts";
import { limitsInForce } from "../src/exhaust/limits.ts";
import { measurePair } from "../src/exhaust/pair.ts";
import { warningsOf } from "../src/exhaust/warnings.ts";
import type { Engine } from "./engine.ts";
import { sha256Of } from "./sha256.ts";
import { captureStore } from "./store/capture-store.ts";

export const engine: Engine = {
  read: readCapture,
  nameOf: (_file, source, signal) => sha256Of(source, signal),
  warningsOf,
  measure: (capture, bank, span, limits) => measurePair(capture, bank, span, limitsInForce(limits)),
  whole: (capture, bank, choices) => analyse(capture, { ...choices, bank }),
  store: captureStore,
};
