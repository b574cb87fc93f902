// Reads one NumPy array: a structured one by its field names, a matrix as channels beside each other, a vector as one channel.

import type { Capture } from "./capture.ts";
import { isNpy, type NpyArray, parseNpy } from "./npy.ts";
import { type NumberColumn, numberTable } from "./number-table.ts";
import type { ByteSource, ReadChoices, Reader } from "./reader.ts";
import { RemarkBook } from "./remarks.ts";

export const npyReader: Reader = { name: "NumPy array", recognises: isNpy, read };

async function read(source: ByteSource, choices: ReadChoices): Promise<Capture> {
  const array = parseNpy(await source.read(0, source.size), source.name);
  const remarks = new RemarkBook();
  if (array.isCut) remarks.say("the header claims more numbers than the file holds; those that are there were read");
  return numberTable({ name: source.name, format: "NumPy array" }, columnsOf(array, remarks), choices, remarks);
}

/** Columns of an array: fields, or the shorter side of a matrix. */
export function columnsOf({ shape, columns }: NpyArray, remarks: RemarkBook, name = ""): NumberColumn[] {
  if (columns.length > 1 || columns.some((column) => column.name !== ""))
    return columns.map((column) => ({ header: column.name, values: column.values }));
  const values = columns[0]?.values ?? new Float64Array(0);
  const [rows = values.length, width = 1] = shape.filter((size) => size !== 1);
  if (width === 1) return [{ header: name, values }];
  const isWide = width > rows;
  if (isWide) remarks.say("the array is wider than long; its rows were taken as channels");
  const channels = Math.min(isWide ? rows : width, 256);
  const length = Math.floor(values.length / (isWide ? rows : width));
  return Array.from({ length: channels }, (_, c) => ({
    header: name === "" ? "" : `${name} ${c + 1}`,
    values: Float64Array.from({ length }, (_, i) => values[isWide ? c * length + i : i * width + c]!),
  }));
}
