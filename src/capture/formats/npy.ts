// The header of a NumPy array, and its types of number. Source: NEP 1, "A simple file format for NumPy arrays"; versions 1.0 to 3.0.

import { ProblemError } from "../../problem.ts";
import { type NumberType, numberReader } from "../model/layout.ts";

export interface NpyHeader {
  readonly shape: readonly number[];
  /** One for each field of a structured type. */
  readonly fields: readonly NpyField[];
  readonly isFortran: boolean;
  /** Where the numbers begin, bytes. */
  readonly start: number;
}

export interface NpyField {
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

/** Bytes that hold any header but one of thousands of fields. */
export const mostHeader = 1 << 20;

/**
 * @param head  the first `mostHeader` bytes of the file, or all.
 * @throws ProblemError "damaged", or "no-numbers" for an array of anything else.
 */
export function npyHeader(head: Uint8Array, name: string): NpyHeader {
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength);
  const isLong = (head[6] ?? 1) > 1;
  if (head.length < 12) throw damaged(name, "its header is cut short");
  const first = isLong ? 12 : 10;
  const start = first + (isLong ? view.getUint32(8, true) : view.getUint16(8, true));
  if (start > head.length) throw damaged(name, "its header is cut short");
  const header = new TextDecoder().decode(head.subarray(first, start));
  const isFortran = /'fortran_order':\s*True/.test(header);
  return { shape: shapeOf(header, name), fields: fieldsOf(header, name), isFortran, start };
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

function fieldsOf(header: string, name: string): NpyField[] {
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

function fieldOf(field: string, code: string, name: string): NpyField {
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

/** Reads a number of a field, which must not be of type null. What is not finite becomes NaN; dates become s. */
export function numberIn({ type, littleEndian, timeUnit }: NpyField): (view: DataView, at: number) => number {
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

function damaged(name: string, why: string): ProblemError {
  return new ProblemError({
    code: "damaged",
    what: `${name} looks like a NumPy array, but ${why}.`,
    remedy: "Save it again with numpy.save.",
    where: name,
  });
}
