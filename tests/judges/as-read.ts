// A recording of the widened simulator as the program meets it: a scope's samples as they are, a log as text through the readers.

import { asCapture } from "../../sample-traces/simulator/as-capture.ts";
import { writeDelimited } from "../../sample-traces/simulator/delimited.ts";
import { dialects } from "../../sample-traces/simulator/dialects.ts";
import type { Recording } from "../../sample-traces/simulator/recorder.ts";
import type { Capture, Channel, Role } from "../../src/capture/model/capture.ts";
import { open } from "../capture/open.ts";

const log = { ...dialects.plainLog, time: { ...dialects.plainLog.time, decimals: 3 } };

export async function asRead(recording: Recording, name: string): Promise<Capture> {
  if (recording.kind === "scope") return asCapture(recording, name);
  return open(writeDelimited(recording, log), {}, `${name}.csv`);
}

interface Sampled {
  readonly role: Role;
  readonly name: string;
  readonly unit: string;
  readonly samples: Float64Array;
}

/** Samples of a scope, handed over as they are; `rate` samples/s. */
export function asSampled(name: string, rate: number, columns: readonly Sampled[]): Capture {
  const channels = columns.map(({ role, name: called, unit, samples }, c): Channel => {
    const time = { kind: "even", start: 0, step: 1 / rate, count: samples.length } as const;
    const named = { id: `c${c + 1}`, name: called, unit, fileUnit: unit, role, bank: 1 } as const;
    return { ...named, series: { time, samples: samples as Float64Array<ArrayBuffer> }, polled: false };
  });
  return { name, format: "simulated", startedAt: null, channels, remarks: [] };
}
