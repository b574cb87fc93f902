// Interleaved binary numbers, streamed into one column per channel, as a capture.

import { sliceStream } from "../bytes/byte-stream.ts";
import { filledCapture } from "../growing/growth.ts";
import type { Capture } from "../model/capture.ts";
import { Column, type Precision } from "../model/columns.ts";
import { numberReader, type RawLayout } from "../model/layout.ts";
import type { ByteSource, ReadChoices, ReadReport } from "../model/reader.ts";
import { tooFewRows } from "../model/refusals.ts";
import type { RemarkBook } from "../model/remarks.ts";
import type { Numbers, Recording } from "../time/recorded.ts";

export type Frames = Pick<RawLayout, "type" | "bytes" | "littleEndian" | "channels" | "scale" | "offset">;

/** What becomes of the numbers. */
export interface FramesRead {
  readonly source: ByteSource;
  readonly frames: Frames;
  /** Bytes of the source. */
  readonly range: readonly [from: number, to: number];
  /** The first rows of the columns, as a recording. */
  recording(columns: readonly Numbers[]): Recording;
}

const pieceBytes = 2 * 1024 * 1024;

/**
 * Numbers in the range, times scale plus offset, as a capture. What is not finite becomes NaN; a cut last frame is left out.
 *
 * @throws ProblemError "too-few-rows", "cancelled"
 */
export async function readFrames(
  read: FramesRead,
  choices: ReadChoices,
  report: ReadReport,
  remarks: RemarkBook,
): Promise<Capture> {
  const { source, frames, range } = read;
  const frame = frames.bytes * frames.channels;
  const [from, end] = [range[0], Math.min(range[1], source.size)];
  const count = Math.max(0, Math.floor((end - from) / frame));
  if (count < 2) throw tooFewRows(source.name, count);
  const precision: Precision = frames.bytes > 4 || frames.type === "i32" || frames.type === "u32" ? "double" : "single";
  const columns = Array.from({ length: frames.channels }, () => new Column(precisionFor(frames, precision), 0));
  const strideRows = Math.max(1, Math.floor(pieceBytes / frame));
  const stride = strideRows * frame;
  const stream = source.stream?.(from) ?? sliceStream(source, from);
  let bytes = new Uint8Array(stride);
  let at = from;
  const next = async () => {
    if (at >= from + count * frame) return null;
    const filled = await stream.fill(bytes, 0);
    bytes = filled.bytes;
    take(bytes.subarray(0, Math.min(filled.end, from + count * frame - at)), frames, columns);
    const done = Math.min(at + filled.end, source.size);
    at = filled.end < stride ? end : at + stride;
    return done;
  };
  const filling = { source, columns, rowsInAll: count, stride: strideRows, recording: read.recording, next };
  try {
    return await filledCapture(filling, choices, report, remarks);
  } finally {
    stream.close();
  }
}

/** A scale that is no power of two needs double precision to keep 9 mV at 0.009 V. */
function precisionFor({ scale, offset }: Frames, plain: Precision): Precision {
  return offset === 0 && Number.isInteger(Math.log2(Math.abs(scale))) ? plain : "double";
}

function take(bytes: Uint8Array<ArrayBuffer>, frames: Frames, columns: readonly Column[]): void {
  const { channels, scale, offset } = frames;
  const numbers = numbersIn(bytes, frames);
  const count = Math.floor(numbers.length / channels);
  for (const [c, column] of columns.entries()) {
    const { values, length } = column;
    let odd = 0; // NaN once a number was not finite: a sum is quicker than a question to each
    for (let i = length, k = c; i < length + count; i++, k += channels) {
      const value = numbers[k]! * scale + offset;
      values[i] = value;
      odd += value - value;
    }
    column.length = length + count;
    if (odd !== 0) leaveOut(column, length);
  }
}

/** Numbers from `from` on that are not finite become NaN. */
function leaveOut(column: Column, from: number): void {
  const { values, length } = column;
  for (let i = from; i < length; i++) if (!Number.isFinite(values[i]!)) values[i] = Number.NaN;
  column.isFull = false;
}

const isLittleEndian = new Uint8Array(Uint16Array.of(1).buffer)[0] === 1;

/** The usual kinds are looked at where they lie; others are read one by one. */
function numbersIn(bytes: Uint8Array<ArrayBuffer>, frames: Frames): ArrayLike<number> {
  const { type, bytes: width, littleEndian } = frames;
  const count = Math.floor(bytes.length / width);
  if (littleEndian && isLittleEndian) {
    if (type === "f32") return new Float32Array(bytes.buffer, bytes.byteOffset, count);
    if (type === "i16") return new Int16Array(bytes.buffer, bytes.byteOffset, count);
  }
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const read = numberReader({ type, littleEndian });
  const numbers = new Float64Array(count);
  for (let i = 0; i < count; i++) numbers[i] = read(view, i * width);
  return numbers;
}
