// How a capture is laid out in storage: one JSON record, and one file of arrays with what is needed first in front.

import type { Capture } from "../../src/capture/capture.ts";
import type { ReadChoices } from "../../src/capture/reader.ts";
import type { Samples, TimeBase } from "../../src/signal/series.ts";
import type { Seconds } from "../../src/signal/units.ts";
import type { BodyChannel } from "../body.ts";
import type { MemoryBody } from "../memory-body.ts";
import { blockSize } from "../pyramid.ts";

export const layoutVersion = 1;

/** Where an array lies in the file of arrays. */
export interface Place {
  readonly kind: "f32" | "f64";
  /** Bytes from the file's start; a multiple of 8. */
  readonly at: number;
  readonly length: number;
}

export type KeptTime =
  | Extract<TimeBase, { kind: "even" }>
  | (Omit<Extract<TimeBase, { kind: "stamped" }>, "stamps"> & { readonly stamps: Place; readonly blockTimes: Place });

export interface KeptChannel extends BodyChannel {
  readonly time: KeptTime;
  readonly samples: Place;
  readonly low: Place;
  readonly high: Place;
  readonly longestStep: Seconds | null;
}

export interface KeptCapture extends Omit<Capture, "channels"> {
  readonly version: typeof layoutVersion;
  readonly choices: ReadChoices;
  /** Name of the file of arrays. */
  readonly arrays: string;
  /** Bytes of it that hold the bounds and times of blocks: enough for a first picture. */
  readonly front: number;
  readonly size: number;
  readonly channels: readonly KeptChannel[];
}

/** What is written where. */
export interface Layout {
  readonly kept: KeptCapture;
  readonly pieces: readonly { readonly place: Place; readonly array: Samples }[];
}

export function layOut(capture: Capture, body: MemoryBody, choices: ReadChoices, arrays: string): Layout {
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
  const times = new Map<Float64Array, Place>();
  const fronts = capture.channels.map((channel) => {
    const { time, samples } = channel.series;
    const blocks = body.pyramidOf(channel).blocks(samples);
    if (time.kind === "stamped" && !times.has(time.stamps)) times.set(time.stamps, put(everyBlock(time.stamps)));
    return { low: put(blocks.low), high: put(blocks.high) };
  });
  const front = end;
  const channels = capture.channels.map((channel, i): KeptChannel => {
    const { time, samples } = channel.series;
    const longestStep = body.longestStepOf(channel);
    const keptTime: KeptTime =
      time.kind === "even" ? time : { ...time, stamps: put(time.stamps), blockTimes: times.get(time.stamps)! };
    return {
      ...body.channels[i]!,
      ...fronts[i]!,
      time: keptTime,
      samples: put(samples),
      longestStep: Number.isFinite(longestStep) ? longestStep : null,
    };
  });
  return { kept: { ...capture, version: layoutVersion, choices, arrays, front, size: end, channels }, pieces };
}

function everyBlock(stamps: Float64Array): Float64Array {
  return Float64Array.from({ length: Math.ceil(stamps.length / blockSize) }, (_, block) => stamps[block * blockSize]!);
}

/** The bytes of an array, not copied. */
export function bytesOf({ buffer, byteOffset, byteLength }: Samples): Uint8Array<ArrayBuffer> {
  return new Uint8Array(buffer as ArrayBuffer, byteOffset, byteLength);
}

/** Entries [from, to) of the array at `place`. */
export function slot({ kind, at }: Place, from: number, to: number) {
  const width = kind === "f32" ? 4 : 8;
  const array = kind === "f32" ? new Float32Array(to - from) : new Float64Array(to - from);
  return { array, at: at + from * width };
}
