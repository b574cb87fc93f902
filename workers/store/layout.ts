// How a capture is laid out in storage: one JSON record, and one file of arrays of which bounds and times of blocks are enough for a first picture.

import type { Capture } from "../../src/capture/model/capture.ts";
import type { ReadChoices } from "../../src/capture/model/reader.ts";
import type { Seconds } from "../../src/signal/numbers/units.ts";
import type { Samples, TimeBase } from "../../src/signal/series/series.ts";
import type { BodyChannel } from "../body/body.ts";
import type { MemoryBody } from "../body/memory-body.ts";
import { blockSize, coarser } from "../drawing/pyramid.ts";

export const layoutVersion = 4;

/** Where an array lies in the file of arrays. */
export interface Place {
  readonly kind: "f32" | "f64";
  /** Bytes from the file's start; a multiple of 8. */
  readonly at: number;
  readonly length: number;
}

/** Stamps that need no storage. */
export interface Steps {
  readonly kind: "even";
  readonly start: Seconds;
  readonly step: Seconds;
  readonly length: number;
}

/** A column lies in one place, or part by part in several: all but the last hold whole blocks. */
export type KeptTime =
  | Extract<TimeBase, { kind: "even" }>
  | (Omit<Extract<TimeBase, { kind: "stamped" }>, "stamps"> & {
      readonly stamps: readonly (Place | Steps)[];
      readonly blockTimes: Levels;
    });

/** One entry for each block of samples, and one for each block of these: the first picture needs no others. */
export interface Levels {
  readonly fine: Place;
  readonly coarse: Place;
}

export interface KeptChannel extends BodyChannel {
  readonly time: KeptTime;
  readonly samples: readonly Place[];
  readonly low: Levels;
  readonly high: Levels;
  readonly longestStep: Seconds | null;
}

export interface KeptCapture extends Omit<Capture, "channels"> {
  readonly version: typeof layoutVersion;
  readonly choices: ReadChoices;
  /** Name of the file of arrays. */
  readonly arrays: string;
  /** Bytes of it. */
  readonly size: number;
  /** Over the file of arrays: see sum.ts. */
  readonly sum: string;
  /** Bytes of the file that was opened. */
  readonly fileSize: number;
  readonly channels: readonly KeptChannel[];
}

/** What is written where. */
export interface Layout {
  readonly kept: Omit<KeptCapture, "sum">;
  readonly pieces: readonly { readonly place: Place; readonly array: Samples }[];
}

/** @param labels  what is kept beside the capture. */
export function layOut(
  capture: Capture,
  body: MemoryBody,
  labels: Pick<KeptCapture, "choices" | "arrays" | "fileSize">,
): Layout {
  const pieces: { place: Place; array: Samples }[] = [];
  const known = new Map<Samples, Place>();
  let end = 0;
  function put(array: Samples): Place {
    const old = known.get(array);
    if (old) return old;
    const place: Place = { kind: array instanceof Float32Array ? "f32" : "f64", at: end, length: array.length };
    end = Math.ceil((end + array.byteLength) / 8) * 8;
    known.set(array, place);
    pieces.push({ place, array });
    return place;
  }
  const putLevels = (fine: Samples, keep: Parameters<typeof coarser>[1]): Levels => ({
    coarse: put(coarser(fine, keep)),
    fine: put(fine),
  });
  const times = new Map<Float64Array, Levels>();
  const fronts = capture.channels.map((channel) => {
    const { time, samples } = channel.series;
    const blocks = body.pyramidOf(channel).blocks(samples);
    if (time.kind === "stamped" && !times.has(time.stamps))
      times.set(time.stamps, putLevels(everyBlock(time.stamps), "first"));
    return { low: putLevels(blocks.low, "lowest"), high: putLevels(blocks.high, "highest") };
  });
  const channels = capture.channels.map((channel, i): KeptChannel => {
    const { time, samples } = channel.series;
    const longestStep = body.longestStepOf(channel);
    const keptTime: KeptTime =
      time.kind === "even" ? time : { ...time, stamps: [put(time.stamps)], blockTimes: times.get(time.stamps)! };
    return {
      ...body.channels[i]!,
      ...fronts[i]!,
      time: keptTime,
      samples: [put(samples)],
      longestStep: Number.isFinite(longestStep) ? longestStep : null,
    };
  });
  return { kept: { ...capture, version: layoutVersion, ...labels, size: end, channels }, pieces };
}

function everyBlock(stamps: Float64Array): Float64Array {
  return Float64Array.from({ length: Math.ceil(stamps.length / blockSize) }, (_, block) => stamps[block * blockSize]!);
}

/** The bytes of an array, not copied. */
export function bytesOf({ buffer, byteOffset, byteLength }: Samples): Uint8Array<ArrayBuffer> {
  return new Uint8Array(buffer as ArrayBuffer, byteOffset, byteLength);
}

/** Entries [from, to) of a column by the places that hold them, each with where its entries go. */
export function* piecesOf<P extends { readonly length: number }>(places: readonly P[], from: number, to: number) {
  let start = 0;
  for (const place of places) {
    const [low, high] = [Math.max(from, start), Math.min(to, start + place.length)];
    if (low < high) yield { place, from: low - start, to: high - start, into: low - from };
    start += place.length;
  }
}

/** Room for entries of all the places: double precision where one of them has it. */
export function roomFor(places: readonly (Place | Steps)[], length: number): Samples {
  return places.every(({ kind }) => kind === "f32") ? new Float32Array(length) : new Float64Array(length);
}

/** Bytes of an entry. */
export const widthOf = (kind: Place["kind"]): number => (kind === "f32" ? 4 : 8);
