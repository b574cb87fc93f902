// One NumPy array: header and numbers. Source: NEP 1, "A simple file format for NumPy arrays"; versions 1.0 to 3.0.

import { ProblemError } from "../problem.ts";
import { type NumberType, numberReader } from "./layout.ts";

export interface NpyArray {
  readonly shape: readonly number[];
  /** In row-major order; one column per field of a structured type. */
  readonly columns: readonly { readonly name: string; readonly values: Float64Array }[];
  /** True where the header asks for more numbers than the file holds. */
  readonly isCut: boolean;
}

interface Field {
  readonly name: string;
  readonly type: NumberType | "f16" | "bool" | null;
  readonly littleEndian: boolean;
  readonly bytes: number;
  /** Seconds in one unit of a date type. */
  readonly timeUnit: number | null;
}

export function isNpy(head: Uint8Array): boolean {
  return head[0] === 0x93 && String.fromCharCode(...head.subarray(1, 6)) === "NUMPY";
}

/** @throws ProblemError "damaged", or "no-numbers" for an array of anything else. */
export function parseNpy(bytes: Uint8Array, name: string): NpyArray {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const isLong = (bytes[6] ?? 1) > 1;
  if (bytes.length < 12) throw damaged(name, "its header is cut short");
  const start = isLong ? 12 : 10;
  const length = isLong ? view.getUint32(8, true) : view.getUint16(8, true);
  if (start + length > bytes.length) throw damaged(name, "its header is cut short");
  const header = new TextDecoder().decode(bytes.subarray(start, start + length));
  const shape = shapeOf(header, name);
  const fields = fieldsOf(header, name);
  const body = new DataView(bytes.buffer, bytes.byteOffset + start + length, bytes.byteLength - start - length);
  return readBody(body, shape, fields, /'fortran_order':\s*True/.test(header));
}

function shapeOf(header: string, name: string): number[] {
  const text = /'shape':\s*\(([^)]{0,200})\)/.exec(header)?.[1];
  if (text === undefined) throw damaged(name, "its header says no shape");
  const shape = text
    .split(",")
    .map((part) => part.trim().replace(/L$/, ""))
    .filter((part) => part !== "")
    .map(Number);
  if (shape.some((size) => !Number.isInteger(size) || size < 0))
    throw damaged(name, "its shape is no list of whole numbers");
  return shape;
}

function fieldsOf(header: string, name: string): Field[] {
  const plain = /'descr':\s*'([^']{1,20})'/.exec(header)?.[1];
  if (plain) return [fieldOf("", plain, name)];
  const list = /'descr':\s*\[([\s\S]*)\],\s*'fortran_order'/.exec(header)?.[1] ?? "";
  const fields = [...list.matchAll(/\(\s*(?:'((?:[^'\\]|\\.)*)'|"([^"]*)")\s*,\s*'([^']{1,20})'\s*\)/g)];
  if (fields.length === 0) throw damaged(name, "its header says no type of number");
  return fields.map(([, single, double, type]) =>
    fieldOf((single ?? double ?? "").replace(/\\(.)/g, "$1"), type!, name),
  );
}

const dateUnits: Readonly<Record<string, number>> = { D: 86400, h: 3600, m: 60, s: 1, ms: 1e-3, us: 1e-6, ns: 1e-9 };

function fieldOf(field: string, code: string, name: string): Field {
  const [, order = "<", kind = "", width = "0", unit] = /^([<>|=]?)([a-zA-Z?])(\d*)(?:\[(\w+)\])?$/.exec(code) ?? [];
  const bytes = kind === "?" ? 1 : Number(width);
  const base = { name: field, littleEndian: order !== ">", bytes, timeUnit: null };
  if (kind === "b" || kind === "?") return { ...base, type: "bool" };
  if ((kind === "M" || kind === "m") && bytes === 8)
    return { ...base, type: "i64", timeUnit: dateUnits[unit ?? ""] ?? 1 };
  if (kind === "f" && bytes === 2) return { ...base, type: "f16" };
  const allowed = kind === "f" ? [4, 8] : kind === "i" || kind === "u" ? [1, 2, 4, 8] : [];
  if (allowed.includes(bytes)) return { ...base, type: `${kind}${bytes * 8}` as NumberType };
  if (/[USaSV]/.test(kind) && bytes > 0) return { ...base, bytes: kind === "U" ? bytes * 4 : bytes, type: null };
  throw new ProblemError({
    code: "no-numbers",
    what: `${name} holds an array of type ${code}, which are no plain numbers.`,
    remedy: "Save it as an array of float or integer numbers.",
    where: name,
  });
}

function readBody(body: DataView, shape: readonly number[], fields: readonly Field[], isFortran: boolean): NpyArray {
  const item = fields.reduce((sum, { bytes }) => sum + bytes, 0);
  const wanted = shape.reduce((product, size) => product * size, 1);
  const count = Math.min(wanted, Math.floor(body.byteLength / Math.max(1, item)));
  let at = 0;
  const columns = fields.flatMap((field) => {
    const first = at;
    at += field.bytes;
    if (field.type === null) return [];
    const read = readerOf(field);
    return [{ name: field.name, values: Float64Array.from({ length: count }, (_, i) => read(body, i * item + first)) }];
  });
  const isCut = count < wanted;
  if (isFortran && shape.length === 2 && !isCut)
    return {
      shape,
      isCut,
      columns: columns.map((column) => ({ ...column, values: transposed(column.values, shape) })),
    };
  return { shape, columns, isCut };
}

function readerOf({ type, littleEndian, timeUnit }: Field): (view: DataView, at: number) => number {
  if (type === "bool") return (view, at) => (view.getUint8(at) === 0 ? 0 : 1);
  if (type === "f16") return (view, at) => half(view.getUint16(at, littleEndian));
  const read = numberReader({ type: type as NumberType, littleEndian });
  const finite = (value: number): number => (Number.isFinite(value) ? value : Number.NaN);
  return timeUnit === null ? (view, at) => finite(read(view, at)) : (view, at) => read(view, at) * timeUnit;
}

/** IEEE 754 half precision. */
function half(bits: number): number {
  const [sign, exponent, fraction] = [bits & 0x8000 ? -1 : 1, (bits >> 10) & 31, bits & 1023];
  if (exponent === 31) return Number.NaN;
  return sign * (exponent === 0 ? fraction * 2 ** -24 : (1 + fraction / 1024) * 2 ** (exponent - 15));
}

function transposed(values: Float64Array, shape: readonly number[]): Float64Array {
  const [rows = 0, width = 0] = shape;
  const out = new Float64Array(values.length);
  for (let r = 0; r < rows; r++) for (let c = 0; c < width; c++) out[r * width + c] = values[c * rows + r]!;
  return out;
}

function damaged(name: string, why: string): ProblemError {
  return new ProblemError({
    code: "damaged",
    what: `${name} looks like a NumPy array, but ${why}.`,
    remedy: "Save it again with numpy.save.",
    where: name,
  });
}
