// The layout of raw numbers as the user states it: "f32le channels=2 rate=1000 scale=0.001 offset=0 skip=0 names=Front,Rear unit=V".

import { ProblemError } from "../../problem.ts";

const types = {
  i8: 1,
  u8: 1,
  i16: 2,
  u16: 2,
  i24: 3,
  i32: 4,
  u32: 4,
  i64: 8,
  u64: 8,
  f32: 4,
  f64: 8,
} as const;
export type NumberType = keyof typeof types;

export interface Scaling {
  readonly scale: number;
  readonly offset: number;
  readonly names: readonly string[];
  readonly unit: string;
}

export interface RawLayout extends Scaling {
  readonly type: NumberType;
  readonly bytes: number;
  readonly littleEndian: boolean;
  readonly channels: number;
  readonly rate: number | null;
  /** Bytes before the first number. */
  readonly skip: number;
}

/** @throws ProblemError "bad-layout" naming the word that is not understood. */
export function layoutOf(text: string): RawLayout {
  const [first = "", ...rest] = text.trim().split(/\s+/);
  const kind = typeWord.exec(first);
  const type = kind?.[1]?.toLowerCase() as NumberType | undefined;
  if (!type || !(type in types)) throw badLayout(first);
  const said = new Map(rest.map(pairOf));
  return {
    type,
    bytes: types[type],
    littleEndian: kind?.[2]?.toLowerCase() !== "be",
    channels: within(said, "channels", 1, 1, 256),
    rate: said.has("rate") ? within(said, "rate", 0, Number.MIN_VALUE, 1e12) : null,
    skip: within(said, "skip", 0, 0, 2 ** 40),
    ...scalingOf(said),
  };
}

const typeWord = /^([iuf]\d{1,2})(le|be)?$/i;

/** Whether a layout states a type of number: then the bytes are read as raw numbers, whatever they look like. */
export function statesType(layout: string): boolean {
  return /^\s*[iuf]\d/i.test(layout) || !layout.includes("=");
}

/** "scale=5 offset=0 unit=V names=Front,Rear" for a format that says everything else itself. */
export function statedScaling(text: string): Scaling {
  return scalingOf(new Map(text.trim() === "" ? [] : text.trim().split(/\s+/).map(pairOf)));
}

function scalingOf(said: ReadonlyMap<string, string>): Scaling {
  return {
    scale: within(said, "scale", 1, -1e30, 1e30),
    offset: within(said, "offset", 0, -1e30, 1e30),
    names: (said.get("names") ?? "").split(",").filter((name) => name !== ""),
    unit: said.get("unit") ?? "",
  };
}

const keys = ["channels", "rate", "scale", "offset", "skip", "names", "unit"];

function pairOf(word: string): readonly [string, string] {
  const cut = word.indexOf("=");
  const key = word.slice(0, cut).toLowerCase();
  if (cut < 1 || !keys.includes(key)) throw badLayout(word);
  return [key, word.slice(cut + 1)];
}

function within(said: ReadonlyMap<string, string>, key: string, otherwise: number, low: number, high: number): number {
  const text = said.get(key);
  if (text === undefined) return otherwise;
  const value = text === "" ? Number.NaN : Number(text);
  const mustBeWhole = key === "channels" || key === "skip";
  if (!(value >= low && value <= high) || (mustBeWhole && !Number.isInteger(value))) throw badLayout(`${key}=${text}`);
  return value;
}

function badLayout(word: string): ProblemError {
  return new ProblemError({
    code: "bad-layout",
    what: `The layout says "${word.slice(0, 60)}", which is not understood.`,
    remedy: `Write a type (${Object.keys(types).join(", ")}, with le or be behind it) and what else is known, as in f32le channels=2 rate=1000 scale=0.001 offset=0 skip=0.`,
  });
}

/** Reads number `at` bytes into `view`. 64-bit whole numbers beyond 2^53 are rounded. */
export function numberReader({
  type,
  littleEndian,
}: Pick<RawLayout, "type" | "littleEndian">): (view: DataView, at: number) => number {
  const le = littleEndian;
  const readers: Record<NumberType, (view: DataView, at: number) => number> = {
    i8: (view, at) => view.getInt8(at),
    u8: (view, at) => view.getUint8(at),
    i16: (view, at) => view.getInt16(at, le),
    u16: (view, at) => view.getUint16(at, le),
    i24: (view, at) =>
      le ? view.getUint16(at, true) | (view.getInt8(at + 2) << 16) : (view.getInt8(at) << 16) | view.getUint16(at + 1),
    i32: (view, at) => view.getInt32(at, le),
    u32: (view, at) => view.getUint32(at, le),
    i64: (view, at) => Number(view.getBigInt64(at, le)),
    u64: (view, at) => Number(view.getBigUint64(at, le)),
    f32: (view, at) => view.getFloat32(at, le),
    f64: (view, at) => view.getFloat64(at, le),
  };
  return readers[type];
}
