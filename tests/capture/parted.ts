// Reads a recording in parts and as a whole: the whole is the judge.

import { expect } from "vitest";
import { memorySource } from "../../src/capture/bytes/sources.ts";
import type { Capture, Channel } from "../../src/capture/model/capture.ts";
import { partGrain, type ReadChoices } from "../../src/capture/model/reader.ts";
import { readCapture } from "../../src/capture/readers.ts";
import { countOf, type StampDoubt, type TimeBase, timeAt } from "../../src/signal/series/series.ts";

export const quiet = { progress: () => {}, signal: new AbortController().signal };

interface Parted {
  /** Labels and remarks of the whole, samples of all parts. */
  readonly capture: Capture;
  readonly sizes: readonly number[];
}

function stampsOf(time: TimeBase): Float64Array {
  const stamps = new Float64Array(countOf(time));
  for (let i = 0; i < stamps.length; i++) stamps[i] = timeAt(time, i);
  return stamps;
}

export async function inParts(bytes: Uint8Array, name: string, choices: ReadChoices = {}): Promise<Parted> {
  const parts: { readonly stamps: Float64Array; readonly samples: readonly Float64Array[] }[] = [];
  const doubts: (StampDoubt | undefined)[] = [];
  const take = async ({ channels }: Capture) => {
    expect(new Set(channels.map(({ series }) => series.time)).size).toBe(1);
    // Copied: the memory may be used again.
    const samples = channels.map(({ series }) => Float64Array.from(series.samples));
    doubts.push(channels[0]!.series.time.doubt);
    parts.push({ stamps: stampsOf(channels[0]!.series.time), samples });
  };
  const labels = await readCapture(memorySource(bytes, name), choices, {
    ...quiet,
    parts: { wants: () => true, bytes: 400_000, take },
  });
  const stamps = joined(parts.map((part) => part.stamps));
  const channels = labels.channels.map((channel, c): Channel => {
    expect(channel.series.samples.length).toBe(0);
    const samples = joined(parts.map((part) => part.samples[c]!));
    const [doubt] = doubts;
    return { ...channel, series: { time: { kind: "stamped", stamps, ...(doubt ? { doubt } : {}) }, samples } };
  });
  expect(doubts).toEqual(doubts.map(() => doubts[0]));
  return { capture: { ...labels, channels }, sizes: parts.map((part) => part.stamps.length) };
}

function joined(pieces: readonly Float64Array[]): Float64Array {
  const all = new Float64Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}

export const asWhole = (bytes: Uint8Array, name: string, choices: ReadChoices = {}) =>
  readCapture(memorySource(bytes, name), choices, quiet);

/** @param resolution  s: of the file's stamps. */
export async function expectSame(bytes: Uint8Array, name: string, choices: ReadChoices = {}, resolution = 0) {
  const whole = await asWhole(bytes, name, choices);
  const { capture, sizes } = await inParts(bytes, name, choices);
  expect(sizes.length).toBeGreaterThan(2);
  expect(sizes.slice(0, -1).every((size) => size % partGrain === 0)).toBe(true);
  const labels = ({ series: _, ...rest }: Channel) => rest;
  expect({ ...capture, channels: capture.channels.map(labels) }).toEqual({
    ...whole,
    channels: whole.channels.map(labels),
  });
  for (const [c, { series }] of whole.channels.entries()) {
    const got = capture.channels[c]!.series;
    expect(got.samples.length).toBe(series.samples.length);
    expect(got.samples.findIndex((sample, i) => !Object.is(sample, series.samples[i]))).toBe(-1);
    for (const side of ["early", "late"] as const)
      expect(got.time.doubt?.[side] ?? 0).toBeCloseTo(series.time.doubt?.[side] ?? 0, 9);
  }
  // All channels of a part have one time.
  const mine = capture.channels[0]!.series.time;
  for (const time of new Set(whole.channels.map(({ series }) => series.time))) {
    expect(countOf(mine)).toBe(countOf(time));
    const [stamps, judge] = [stampsOf(mine), stampsOf(time)];
    const apart = stamps.reduce((most, stamp, i) => Math.max(most, Math.abs(stamp - judge[i]!)), 0);
    // Each lies within one digit of the stamp as written; binary rounding of hours beside it.
    expect(apart).toBeLessThanOrEqual(2.02 * resolution + 1e-9);
  }
  return capture;
}
