// The layout of raw numbers as the user states it, in plain words (`layout-words.ts`). Records kept before hold it in a short form,
// "f32le channels=2 rate=1000 scale=0.001", which is read still.

import { ProblemError } from "../../problem.ts";
import { type LayoutKey, numberKinds, plainWords, type Said } from "./layout-words.ts";

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
  const said = saidIn(text);
  const type = said.get("type") as NumberType | undefined;
  if (!type || !(type in types)) throw badLayout(text.trim());
  return {
    type,
    bytes: types[type],
    littleEndian: said.get("order") !== "be",
    channels: within(said, "channels", 1),
    rate: said.has("rate") ? within(said, "rate", 0) : null,
    skip: within(said, "skip", 0),
    ...scalingOf(said),
  };
}

/** Whether a layout states a type of number: then the bytes are read as raw numbers, whatever they look like. */
export function statesType(layout: string): boolean {
  return isShortType.test(layout) || /\d[- ]bit\b/i.test(layout) || !/=|^\s*(times|plus|unit|names?)\b/i.test(layout);
}

/** "times 5, unit V, names Front / Rear" for a format that says everything else itself. */
export const statedScaling = (text: string): Scaling => scalingOf(saidIn(text));

/** @throws ProblemError "bad-layout" naming the word that is not understood. */
export function saidIn(text: string): Said {
  if (isShortType.test(text) || text.includes("=")) return shortForm(text);
  const { said, unknown } = plainWords(text);
  if (unknown !== null) throw badLayout(unknown);
  return said;
}

const isShortType = /^\s*[iuf]\d/i;
const shortType = /^([iuf]\d{1,2})(le|be)?$/i;

function shortForm(text: string): Said {
  return new Map(
    text
      .trim()
      .split(/\s+/)
      .flatMap((word, at): (readonly [LayoutKey, string])[] => {
        const [, type, order = "le"] = (at === 0 && shortType.exec(word)) || [];
        if (!type) return [pairOf(word)];
        return [
          ["type", type.toLowerCase()],
          ["order", order.toLowerCase()],
        ];
      }),
  );
}

function scalingOf(said: Said): Scaling {
  return {
    scale: within(said, "scale", 1),
    offset: within(said, "offset", 0),
    names: (said.get("names") ?? "").split(",").filter((name) => name !== ""),
    unit: said.get("unit") ?? "",
  };
}

const keys: readonly string[] = ["channels", "rate", "scale", "offset", "skip", "names", "unit"];

function pairOf(word: string): readonly [LayoutKey, string] {
  const cut = word.indexOf("=");
  const key = word.slice(0, cut).toLowerCase();
  if (cut < 1 || !keys.includes(key)) throw badLayout(word);
  return [key as LayoutKey, word.slice(cut + 1)];
}

/** What each number of a layout may be. */
const ranges = {
  channels: [1, 256],
  rate: [Number.MIN_VALUE, 1e12],
  skip: [0, 2 ** 40],
  scale: [-1e30, 1e30],
  offset: [-1e30, 1e30],
} as const;
export type LayoutNumber = keyof typeof ranges;

export function isInRange(key: LayoutNumber, value: number): boolean {
  const [low, high] = ranges[key];
  const mustBeWhole = key === "channels" || key === "skip";
  return value >= low && value <= high && (!mustBeWhole || Number.isInteger(value));
}

function within(said: Said, key: LayoutNumber, otherwise: number): number {
  const text = said.get(key);
  if (text === undefined) return otherwise;
  const value = text === "" ? Number.NaN : Number(text);
  if (!isInRange(key, value)) throw badLayout(`${key} ${text}`);
  return value;
}

function badLayout(words: string): ProblemError {
  return new ProblemError({
    code: "bad-layout",
    what: `The layout says "${words.slice(0, 60)}", which is not understood.`,
    remedy: `Say the kind of number (${numberKinds.map(([kind]) => kind).join(", ")}) and what else is known, as in ${layoutExample}, times 0.001, plus 0, unit V, skip 0 bytes.`,
  });
}

const layoutExample = "16-bit whole, low byte first, 2 channels, 1000 per second";

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
