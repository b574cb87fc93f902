// One recording to be judged, from any of the plants: what the program gets, and what only the plant knows.

import { roundsPerSecond } from "../../sample-traces/simulator/wide/recorders.ts";
import { drawWide, simulateWide, type WideKind, wideKinds } from "../../sample-traces/simulator/wide/wide-fleet.ts";
import type { Capture } from "../../src/capture/model/capture.ts";
import { countOf } from "../../src/signal/series/series.ts";
import { asRead } from "./as-read.ts";
import { readSecond } from "./second-recording.ts";
import { readThird } from "./third-recording.ts";

export type Kind = WideKind;
export const kinds = wideKinds;
export const plantNames = ["first", "second", "third"] as const;
export type PlantName = (typeof plantNames)[number];

/** What the table is kept by. */
export interface Known {
  readonly plant: PlantName;
  readonly kind: Kind;
  readonly number: number;
  readonly recorder: "scope" | "log";
  /** Samples/s, or times a second that a log asks each channel. */
  readonly rate: number;
  /** Hot, a cruise of 30 s or two fuel cuts, a log of 8 rounds/s or more. */
  readonly fit: boolean;
  /** g that the hot catalyst can hold; what of it is usable in a cut of 8 g/s; the most that one lean spell offered it. */
  readonly store: number;
  readonly usable: number;
  readonly largestOffer: number;
}

export interface Judged {
  readonly known: Known;
  readonly capture: Capture;
}

export async function judgedRecording(plant: PlantName, kind: Kind, number: number): Promise<Judged> {
  const read = { first: readFirst, second: readSecond, third: readThird }[plant];
  return read(kind, number);
}

async function readFirst(kind: Kind, number: number): Promise<Judged> {
  const car = drawWide(kind, number);
  const { recording, truth } = simulateWide(car);
  const { recorder } = car;
  const capture = await asRead(recording, `${kind} ${number}`);
  const { store, usable, fit, largestOffer } = truth;
  const rate = recorder.kind === "scope" ? recorder.rate : roundsPerSecond(recorder);
  const is = recorder.kind === "scope" ? "scope" : "log";
  return { capture, known: { plant: "first", kind, number, recorder: is, rate, fit, store, usable, largestOffer } };
}

/** Samples of the longest channel: told beside a judge's time. */
export const samplesOf = ({ channels }: Capture): number =>
  Math.max(0, ...channels.map(({ series }) => countOf(series.time)));
