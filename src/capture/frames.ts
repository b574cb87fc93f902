// Interleaved binary numbers, streamed into one column per channel.

import { breathe } from "./breathe.ts";
import { Column, type Precision } from "./columns.ts";
import { numberReader, type RawLayout } from "./layout.ts";
import type { ByteSource, ReadReport } from "./reader.ts";

export type Frames = Pick<RawLayout, "type" | "bytes" | "littleEndian" | "channels" | "scale" | "offset">;

const pieceBytes = 1024 * 1024;

/** Numbers in [from, to), times scale plus offset. What is not finite becomes NaN; a cut last frame is left out. */
export async function readFrames(
  source: ByteSource,
  frames: Frames,
  range: readonly [from: number, to: number],
  report: ReadReport,
): Promise<Column[]> {
  const frame = frames.bytes * frames.channels;
  const [from, end] = [range[0], Math.min(range[1], source.size)];
  const count = Math.max(0, Math.floor((end - from) / frame));
  const precision: Precision = frames.bytes > 4 || frames.type === "i32" || frames.type === "u32" ? "double" : "single";
  const columns = Array.from({ length: frames.channels }, () => new Column(precisionFor(frames, precision), count));
  const stride = Math.max(1, Math.floor(pieceBytes / frame)) * frame;
  for (let at = from; at < from + count * frame; at += stride) {
    const bytes = await source.read(at, Math.min(at + stride, from + count * frame));
    take(bytes, frames, columns);
    report.progress(at + bytes.length, source.size);
    await breathe(report.signal, source.name);
  }
  return columns;
}

/** A scale that is no power of two needs double precision to keep 9 mV at 0.009 V. */
function precisionFor({ scale, offset }: Frames, plain: Precision): Precision {
  return offset === 0 && Number.isInteger(Math.log2(Math.abs(scale))) ? plain : "double";
}

function take(
  bytes: Uint8Array,
  { type, bytes: width, littleEndian, channels, scale, offset }: Frames,
  columns: readonly Column[],
): void {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const read = numberReader({ type, littleEndian });
  const frame = width * channels;
  for (let at = 0; at + frame <= bytes.length; at += frame) {
    for (let c = 0; c < channels; c++) {
      const value = read(view, at + c * width) * scale + offset;
      columns[c]!.push(Number.isFinite(value) ? value : Number.NaN);
    }
  }
}
