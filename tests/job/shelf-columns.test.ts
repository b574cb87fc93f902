// Corrections of a known-good trace travel with it: what the zip brings shows what the recording showed when it was kept.

import { expect, test } from "vitest";
import { packEntries, unpackEntries } from "../../src/capture/archives/zip-entries.ts";
import { memorySource } from "../../src/capture/bytes/sources.ts";
import { correctionIn, labelsIn } from "../../src/capture/meaning/corrections.ts";
import type { Capture } from "../../src/capture/model/capture.ts";
import type { ReadChoices } from "../../src/capture/model/reader.ts";
import type { Corrections } from "../../src/capture/model/take.ts";
import { readCapture } from "../../src/capture/readers.ts";
import { columnsOf, correctionsThatTell, readColumns } from "../../src/job/shelf/columns.ts";
import { readShelfEntries, shelfEntries, shelfLimits } from "../../src/job/shelf/shelf-bundle.ts";
import { writeNpy } from "../capture/written.ts";
import { shelfTrace } from "./shelf-sample.ts";

const rows = Array.from(
  { length: 200 },
  (_, i) => `${i / 100},${40 + (i % 30)},${0.1 + (i % 7) / 10},${i % 50},${3 * i}`,
);
const text = ["Time (s),Front O2 (mV),Rear O2 (V),Front O2 (V),Extra", ...rows].join("\n");

const open = (bytes: Uint8Array, name: string, choices: ReadChoices) =>
  readCapture(memorySource(bytes, name), choices, { progress: () => {}, signal: new AbortController().signal });

/** What is measured of each channel. */
const shown = ({ channels }: Capture, corrections: Corrections) =>
  channels.map((channel) => {
    const { gain, offset } = correctionIn(corrections, channel);
    const { role, bank, unit } = labelsIn(corrections, channel);
    return { role, bank, unit, values: [...channel.series.samples].map((value) => (value * gain + offset).toFixed(9)) };
  });

test("swapped leads, a gain, an offset, a stated unit and a bank come out of the zip as they were kept", async () => {
  const recorded = await open(new TextEncoder().encode(text), "log.csv", {});
  const corrections: Corrections = {
    c2: { role: "rear-o2", gain: 10, offset: 0 },
    c3: { role: "front-o2", gain: -1, offset: 0.9 },
    c4: { role: "rear-o2", bank: 2, unit: "mV", gain: 2, offset: 0.05 },
  };
  const trace = { ...shelfTrace, corrections };
  const entries = shelfEntries(trace, writeNpy(recorded.channels, null), columnsOf(recorded.channels, corrections));
  const bundle = await readShelfEntries(await unpackEntries(await packEntries(entries), shelfLimits), "trace.zip");
  if (!bundle.ok) throw new Error(bundle.problem.what);
  const { samples, roles, bank, corrections: brought } = bundle.value;
  const again = await open(new Uint8Array(await samples.arrayBuffer()), "trace.npy", { roles, bank });
  const told = correctionsThatTell(again.channels, brought);
  expect(shown(again, told)).toEqual(shown(recorded, corrections));
  expect(again.channels[0]!.series.samples[5]).toBeCloseTo(0.045, 9); // as recorded, in V
  expect(Object.keys(told)).toEqual(["c2", "c3", "c4"]); // nobody touched the last
});

test("what is no correction is as recorded", () => {
  const said = [
    null,
    { gain: 0, offset: "1", role: "toString", bank: 3, unit: "x".repeat(99) },
    { gain: Number.POSITIVE_INFINITY },
    7,
  ];
  const plain = { gain: 1, offset: 0 };
  expect(readColumns(said)).toEqual({ c3: plain, c4: plain });
  expect(readColumns({ length: 3 })).toEqual({});
});
