// What the capture worker itself does with a first file, done beforehand on a made-up one.

import { memorySource } from "../../src/capture/bytes/sources.ts";
import type { Capture } from "../../src/capture/model/capture.ts";
import { timeAt } from "../../src/signal/series/series.ts";
import type { Engine } from "../held/engine.ts";
import { madeUp } from "../measuring/rehearsal.ts";

/** Samples a second of the made-up files. */
const rates = [50, 100, 250] as const;

/** Reads made-up files and looks for warnings in them, until `isWanted`. Answers once it has ended. */
export async function rehearseReading(
  { read, warningsOf }: Pick<Engine, "read" | "warningsOf">,
  isWanted: () => boolean,
): Promise<void> {
  for (const rate of rates) {
    if (isWanted()) return;
    const bytes = new TextEncoder().encode(textOf(madeUp({ rate, rear: "busy" })));
    const report = { progress() {}, partial() {}, signal: new AbortController().signal };
    const capture = await read(memorySource(bytes, "made-up.csv"), {}, report);
    if (isWanted()) return;
    warningsOf(capture, 1);
  }
}

function textOf({ channels }: Capture): string {
  const { time } = channels[0]!.series;
  const names = channels.map(({ name, unit }) => `${name} (${unit})`);
  const rows = Array.from(channels[0]!.series.samples, (_, i) =>
    [timeAt(time, i), ...channels.map(({ series }) => series.samples[i]!)].map((value) => value.toFixed(3)).join(),
  );
  return [["Time (s)", ...names].join(), ...rows, ""].join("\n");
}
