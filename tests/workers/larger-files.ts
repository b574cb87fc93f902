// Files larger than the room in memory that the tests set, and how they are opened.

import { proxy } from "comlink";
import { gzipSync, strToU8 } from "fflate";
import type { ReadChoices } from "../../src/capture/model/reader.ts";
import type { Corrections } from "../../src/capture/model/take.ts";
import type { OnProgress, Turn } from "../../workers/protocol.ts";
import type { Playground } from "./playground.ts";

export const inTurn: Turn = { urgency: "answer" };

/** Rooms in memory, bytes: more than any of the files, and less than any. */
export const large = 2 ** 40;
export const small = 2 ** 20;

interface Shape {
  readonly rows?: number;
  readonly stamp?: (i: number) => string;
  readonly name?: string;
}

export function text({ name = "a.csv", ...shape }: Shape = {}): File {
  return new File([lines(shape)], name);
}

export function gzipped(): File {
  return new File([gzipSync(strToU8(lines({})), { level: 1 }) as Uint8Array<ArrayBuffer>], "a.csv.gz");
}

/** Rows of a text: enough for parts. */
export const usualRows = 200_000;

/** Text of 35 bytes a row. */
function lines({ rows = usualRows, stamp = (i) => (i / 1000).toFixed(6) }: Shape): string {
  const all = Array.from({ length: rows }, (_, i) => `${stamp(i)},${cells(i)}`);
  return `Time (s),Front O2 (V),Rear O2 (V),Engine speed (1/min)\n${all.join("\n")}\n`;
}

/** What stands behind the stamp; each row is written once for all files. */
function cells(i: number): string {
  const front = () => (0.45 + 0.4 * Math.tanh(3 * Math.sin(i / 130))).toFixed(4);
  written[i] ??= `${front()},${(0.6 + 0.1 * Math.sin(i / 700)).toFixed(4)},${(900 + (i % 77)).toFixed(0)}`;
  return written[i];
}
const written: string[] = [];

/** Stamps of even steps with a hole of 1.5 s. */
export const withHole = (i: number) => (i < 128_000 ? i / 1000 : i / 1000 + 1.5).toFixed(6);

/** Stamps that repeat, step back, are missing and start again. */
export function spoiled(i: number): string {
  if (i % 40_013 === 5000) return "-";
  const at = i % 9973 === 4000 ? i - 1 : i % 30_011 < 3 ? Math.max(0, i - 12) : i;
  return ((at < 150_000 ? at : at - 120_000) / 1000).toFixed(6);
}

/** Little-endian singles for the layout "f32le channels=2 rate=1000". */
export function raw(frames = 1_000_000): File {
  const numbers = Float32Array.from({ length: 2 * frames }, (_, i) => Math.fround(0.5 + 0.4 * Math.sin(i / 300)));
  numbers.fill(Number.NaN, 500_000, 500_400);
  return new File([numbers], "a.raw");
}
export const layout = "f32le channels=2 rate=1000 names=Front_O2,Rear_O2 unit=V";

/** NEP 1, version 1.0: two channels of doubles one behind the other, as Fortran order has them. */
export function npy(frames = 400_000): File {
  const header = `{'descr': '<f8', 'fortran_order': True, 'shape': (${frames}, 2), }`.padEnd(117);
  const magic = Uint8Array.of(0x93, 0x4e, 0x55, 0x4d, 0x50, 0x59, 1, 0, 118, 0);
  const numbers = Float64Array.from({ length: 2 * frames }, (_, i) => 0.5 + 0.4 * Math.sin((i % frames) / 300));
  return new File([magic, `${header}\n`, numbers], "a.npy");
}

export const corrected: Corrections = { c2: { gain: -2, offset: 1 } };

export async function open(
  service: Playground,
  file: File,
  choices: ReadChoices = {},
  onProgress: OnProgress = () => {},
) {
  const outcome = await service.open({ file, name: file.name, choices }, proxy(onProgress));
  if (!outcome.ok) throw new Error(`${outcome.problem.code}: ${outcome.problem.what}`);
  return outcome.value;
}
