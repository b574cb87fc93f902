// Opens bytes or text as the readers do, for the tests.

import { memorySource } from "../../src/capture/bytes/sources.ts";
import type { Capture, Channel, Role } from "../../src/capture/model/capture.ts";
import type { ReadChoices } from "../../src/capture/model/reader.ts";
import { readCapture } from "../../src/capture/readers.ts";
import { type Problem, settle } from "../../src/problem.ts";
import { countOf, timeAt } from "../../src/signal/series/series.ts";

export function openBytes(bytes: Uint8Array, choices: ReadChoices = {}, name = "recording.csv") {
  const progress = (done: number, total: number) => {
    if (!Number.isFinite(done + total)) throw new RangeError(`progress of ${done} in ${total}`);
  };
  const report = { progress, signal: new AbortController().signal };
  return settle(() => readCapture(memorySource(bytes, name), choices, report));
}

export async function open(
  content: string | Uint8Array,
  choices: ReadChoices = {},
  name = "recording.csv",
): Promise<Capture> {
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  const outcome = await openBytes(bytes, choices, name);
  if (!outcome.ok) throw new Error(`${outcome.problem.code}: ${outcome.problem.what} (${outcome.problem.where})`);
  return outcome.value;
}

export async function problemOf(
  content: string | Uint8Array,
  choices: ReadChoices = {},
  name?: string,
): Promise<Problem> {
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  const outcome = await openBytes(bytes, choices, name);
  if (outcome.ok) throw new Error(`opened: ${JSON.stringify(outcome.value.remarks)}`);
  return outcome.problem;
}

export function channel(capture: Capture, role: Role): Channel {
  const found = capture.channels.find((one) => one.role === role);
  if (!found)
    throw new Error(`no ${role} among ${capture.channels.map(({ name, role: has }) => `${name}=${has}`).join(", ")}`);
  return found;
}

export const values = ({ series }: Channel): number[] => [...series.samples];
export const times = ({ series: { time } }: Channel): number[] =>
  Array.from({ length: countOf(time) }, (_, i) => timeAt(time, i));
export const remarks = (capture: Capture): string =>
  capture.remarks.map(({ text, where, count }) => `${text} @${where} x${count}`).join("\n");
