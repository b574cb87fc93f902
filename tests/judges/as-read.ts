// A recording of the widened simulator as the program meets it: a scope's samples as they are, a log as text through the readers.

import { asCapture } from "../../sample-traces/simulator/as-capture.ts";
import { writeDelimited } from "../../sample-traces/simulator/delimited.ts";
import { dialects } from "../../sample-traces/simulator/dialects.ts";
import type { Recording } from "../../sample-traces/simulator/recorder.ts";
import type { Capture } from "../../src/capture/model/capture.ts";
import { open } from "../capture/open.ts";

const log = { ...dialects.plainLog, time: { ...dialects.plainLog.time, decimals: 3 } };

export async function asRead(recording: Recording, name: string): Promise<Capture> {
  if (recording.kind === "scope") return asCapture(recording, name);
  return open(writeDelimited(recording, log), {}, `${name}.csv`);
}
