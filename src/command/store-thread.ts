// Measures the store of the one recording it is asked for, beside the thread that measures the rest.

import { parentPort } from "node:worker_threads";
import { storeStudyOf } from "../exhaust/analyse.ts";
import { anew } from "../exhaust/terms/remembered.ts";
import type { AskedStore } from "./beside.ts";

parentPort!.once("message", ({ capture, choices }: AskedStore) => {
  parentPort!.postMessage(storeStudyOf(capture, choices, anew));
});
