// Reads Parquet with hyparquet, which is loaded only when a file needs it.

import { gunzipSync } from "fflate";
import { ProblemError } from "../problem.ts";
import { breathe } from "./breathe.ts";
import type { Capture } from "./capture.ts";
import { Column } from "./columns.ts";
import { type NumberColumn, numberTable } from "./number-table.ts";
import type { ByteSource, ReadChoices, Reader, ReadReport } from "./reader.ts";
import { RemarkBook } from "./remarks.ts";
import { unsnappy } from "./snappy.ts";

export const parquetReader: Reader = { name: "Parquet", recognises, read };

function recognises(head: Uint8Array): boolean {
  return String.fromCharCode(...head.subarray(0, 4)) === "PAR1";
}

const compressors = {
  GZIP: (bytes: Uint8Array) => gunzipSync(bytes),
  SNAPPY: (bytes: Uint8Array, size: number) => unsnappy(bytes, size),
};

const mostCells = 400_000_000;

async function read(source: ByteSource, choices: ReadChoices, report: ReadReport): Promise<Capture> {
  const { parquetMetadataAsync, parquetRead, parquetSchema } = await import("hyparquet");
  const { checkPages } = await import("./parquet-pages.ts");
  const slice = async (from: number, to = source.size) => (await source.read(from, to)).slice().buffer as ArrayBuffer;
  const file = { byteLength: source.size, slice };
  const remarks = new RemarkBook();
  const columns = new Map<string, Gathered>();
  try {
    const metadata = await parquetMetadataAsync(file);
    const schema = parquetSchema(metadata).children;
    const rows = Number(metadata.num_rows);
    if (!(rows >= 0) || rows * schema.length > mostCells) throw tooLarge(source.name, rows);
    for (const group of metadata.row_groups)
      refuseClaims(
        group.columns.map(({ meta_data }) => Number(meta_data?.total_uncompressed_size ?? 0)),
        source,
      );
    for (const { element } of schema)
      if ((element.type ?? "") !== "") columns.set(element.name, { values: new Column("double"), isTime: false });
    for (const group of metadata.row_groups) {
      for (const { meta_data } of group.columns) {
        if (!meta_data) continue;
        const from = Number(meta_data.dictionary_page_offset ?? meta_data.data_page_offset);
        const size = Number(meta_data.total_compressed_size);
        if (!(from >= 4 && size >= 0 && from + size <= source.size))
          throw damaged(source.name, "a column lies outside the file");
        checkPages(await slice(from, from + size), Number(meta_data.num_values));
      }
    }
    let start = 0;
    for (const group of metadata.row_groups) {
      const end = start + Number(group.num_rows);
      const onChunk = ({
        columnName,
        columnData,
        rowStart,
      }: {
        columnName: string;
        columnData: ArrayLike<unknown>;
        rowStart: number;
      }) => gather(columns.get(columnName), columnData, rowStart);
      await parquetRead({
        file,
        metadata,
        rowStart: start,
        rowEnd: end,
        onChunk,
        compressors,
      });
      start = end;
      report.progress(Math.round((start / Math.max(1, rows)) * source.size), source.size);
      await breathe(report.signal, source.name);
    }
  } catch (error) {
    if (error instanceof ProblemError) throw error;
    throw damaged(source.name, error);
  }
  return numberTable({ name: source.name, format: "Parquet" }, numberColumns(columns, remarks), choices, remarks);
}

interface Gathered {
  readonly values: Column;
  isTime: boolean;
}

/** Numbers as they are; dates as s from 1970; booleans as 0 and 1; everything else is missing. */
function gather(column: Gathered | undefined, cells: ArrayLike<unknown>, rowStart: number): void {
  if (!column) return;
  while (column.values.length < rowStart) column.values.push(Number.NaN);
  for (let i = column.values.length - rowStart; i < cells.length; i++) {
    const cell = cells[i];
    if (cell instanceof Date) column.isTime = true;
    column.values.push(numberOf(cell));
  }
}

function numberOf(cell: unknown): number {
  if (typeof cell === "number") return Number.isFinite(cell) ? cell : Number.NaN;
  if (typeof cell === "bigint") return Number(cell);
  if (cell instanceof Date) return cell.getTime() / 1000;
  return typeof cell === "boolean" ? Number(cell) : Number.NaN;
}

function numberColumns(columns: ReadonlyMap<string, Gathered>, remarks: RemarkBook): NumberColumn[] {
  const all = [...columns].map(([header, { values, isTime }]) => ({
    header,
    values: values.finish(),
    ...(isTime ? { timeUnit: 1 } : {}),
  }));
  const longest = Math.max(0, ...all.map(({ values }) => values.length));
  const kept = all.filter(({ values }) => values.length === longest && values.some((value) => !Number.isNaN(value)));
  const left = all.filter((column) => !kept.includes(column)).map(({ header }) => header);
  if (left.length > 0) remarks.tally(`left out as they hold no numbers: ${left.join(", ")}`, undefined, left.length);
  return kept;
}

/** Claimed sizes far beyond the file are a bomb or a lie. Snappy and gzip pack at most about 1 : 1000. */
function refuseClaims(sizes: readonly number[], source: ByteSource): void {
  const sum = sizes.reduce((a, b) => a + b, 0);
  if (!(sum <= Math.min(2 ** 31, source.size * 1100))) throw damaged(source.name, "its sizes do not fit the file");
}

function tooLarge(name: string, rows: number): ProblemError {
  return new ProblemError({
    code: "too-large",
    what: `${name} claims ${rows} rows, more than can be opened.`,
    remedy: "Write fewer rows or columns into the file.",
    where: name,
  });
}

function damaged(name: string, error: unknown): ProblemError {
  const why = error instanceof Error ? error.message : String(error);
  return new ProblemError({
    code: "damaged",
    what: `${name} looks like Parquet, but it cannot be read: ${why.slice(0, 200)}.`,
    remedy: "Write it again, with no, snappy or gzip compression, or export the recording as CSV.",
    where: name,
  });
}
