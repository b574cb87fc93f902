// Reads WAV: RIFF and RF64, PCM 8 to 32 bit, float 32 and 64, plain or extensible format chunk.
// Source: Multimedia Programming Interface and Data Specifications 1.0 (1991); EBU Tech 3306 (RF64); WAVEFORMATEXTENSIBLE.

import { ProblemError } from "../../problem.ts";
import type { Capture } from "../model/capture.ts";
import { type NumberType, statedScaling } from "../model/layout.ts";
import type { ByteSource, ReadChoices, Reader, ReadReport } from "../model/reader.ts";
import { RemarkBook } from "../model/remarks.ts";
import type { Numbers } from "../time/recorded.ts";
import { readFrames } from "./frames.ts";

export const wavReader: Reader = { name: "WAV", recognises, read };

function recognises(head: Uint8Array): boolean {
  return ["RIFF", "RF64", "BW64"].includes(tag(head, 0)) && tag(head, 8) === "WAVE";
}

const partsOfFullScale =
  'samples are parts of the recorder\'s full scale; state it to get volts, as in "times 5, unit V"';

interface WavFormat {
  readonly type: NumberType;
  readonly bytes: number;
  readonly channels: number;
  readonly rate: number;
}

async function read(source: ByteSource, choices: ReadChoices, report: ReadReport): Promise<Capture> {
  const remarks = new RemarkBook();
  const { format, range } = await chunksOf(source, remarks);
  const rate = choices.rate ?? format.rate;
  const fullScale = format.type.startsWith("f") ? 1 : 2 ** (8 * format.bytes - 1);
  const offset = format.type === "u8" ? -1 : 0; // 8-bit samples are unsigned, centred on 128
  const scaling = statedScaling(choices.layout ?? "");
  const frames = {
    ...format,
    littleEndian: true,
    scale: scaling.scale / fullScale,
    offset: offset * scaling.scale + scaling.offset,
  };
  if (!format.type.startsWith("f") && choices.layout === undefined)
    remarks.say(partsOfFullScale, undefined, "parts-of-full-scale");
  const time = { rate };
  const kind = { name: source.name, format: "WAV", isRowLog: false, rowsAreSimultaneous: true, hasZone: false };
  const recording = (columns: readonly Numbers[]) => ({
    ...kind,
    columns: columns.map((numbers, i) => {
      const name = scaling.names[i] ?? `Channel ${i + 1}`;
      return { id: `c${i + 1}`, name, header: name, fileUnit: scaling.unit, ...numbers, time };
    }),
  });
  return readFrames({ source, frames, range, recording }, choices, report, remarks);
}

interface Found {
  readonly format: WavFormat;
  readonly range: readonly [from: number, to: number];
}

const mostChunks = 1000;

/** Walks the chunks. Sizes are believed only as far as the file goes. */
async function chunksOf(source: ByteSource, remarks: RemarkBook): Promise<Found> {
  let format: WavFormat | null = null;
  let longSize: number | null = null;
  for (let at = 12, seen = 0; at + 8 <= source.size && seen < mostChunks; seen++) {
    const head = await source.read(at, at + 8 + 40);
    const view = new DataView(head.buffer, head.byteOffset, head.byteLength);
    const [name, said] = [tag(head, 0), view.getUint32(4, true)];
    if (name === "ds64" && head.length >= 24) longSize = Number(view.getBigUint64(16, true));
    if (name === "fmt ") format = formatOf(view, said, source.name);
    if (name === "data") {
      if (!format) throw damaged(source.name, "its data come before its format");
      return { format, range: dataRange(source, at + 8, said === 0xffffffff ? (longSize ?? said) : said, remarks) };
    }
    at += 8 + said + (said & 1);
  }
  throw damaged(source.name, format ? "it holds no samples" : "it does not say how its samples are written");
}

function dataRange(
  source: ByteSource,
  from: number,
  said: number,
  remarks: RemarkBook,
): readonly [from: number, to: number] {
  const left = source.size - from;
  // A recorder that was switched off leaves 0 or the largest number.
  if (said > left || said === 0)
    remarks.say(
      `the header claims ${said} bytes of samples, the file holds ${left}; those were read`,
      `byte ${from + 1}`,
    );
  return [from, from + (said === 0 ? left : Math.min(said, left))];
}

function formatOf(view: DataView, size: number, name: string): WavFormat {
  if (size < 16 || view.byteLength < 24) throw damaged(name, "its format chunk is cut short");
  const plain = view.getUint16(8, true);
  const code = plain === 0xfffe && size >= 40 && view.byteLength >= 34 ? view.getUint16(32, true) : plain;
  const [channels, rate] = [view.getUint16(10, true), view.getUint32(12, true)];
  const bits = view.getUint16(22, true);
  const type = typeOf(code, bits);
  if (!type) throw compressed(name, code, bits);
  if (channels < 1 || channels > 256 || rate < 1)
    throw damaged(name, `its header says ${channels} channels at ${rate} samples per second`);
  return { type, bytes: bits / 8, channels, rate };
}

function typeOf(code: number, bits: number): NumberType | null {
  if (code === 3) return bits === 32 ? "f32" : bits === 64 ? "f64" : null;
  const whole: Record<number, NumberType> = { 8: "u8", 16: "i16", 24: "i24", 32: "i32" };
  return code === 1 ? (whole[bits] ?? null) : null;
}

function tag(bytes: Uint8Array, at: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + 4));
}

function damaged(name: string, why: string): ProblemError {
  return new ProblemError({
    code: "damaged",
    what: `${name} looks like WAV, but ${why}.`,
    remedy: "Copy it from the recorder again, or export it anew.",
    where: name,
  });
}

function compressed(name: string, code: number, bits: number): ProblemError {
  return new ProblemError({
    code: "not-a-recording",
    what: `${name} is WAV of a kind that is not read here (format ${code}, ${bits} bit).`,
    remedy: "Save it as uncompressed PCM (8, 16, 24 or 32 bit) or float (32 or 64 bit).",
    where: name,
  });
}
