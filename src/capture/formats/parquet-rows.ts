// The numbers of a Parquet file, row group by row group, decoded by hyparquet.

import { type FileMetaData, parquetMetadataAsync, parquetRead, parquetSchema, type RowGroup } from "hyparquet";
import { ProblemError } from "../../problem.ts";
import { Column } from "../model/columns.ts";
import type { ByteSource } from "../model/reader.ts";
import { codecsFor } from "./parquet-codecs.ts";
import { checkPages } from "./parquet-pages.ts";

/** A column of the file so far. */
export interface Gathered {
  readonly header: string;
  readonly column: Column;
  hasValue: boolean;
  /** Seconds in one unit of the numbers where the file itself says that they are times. */
  timeUnit?: number;
}

export class ParquetRows {
  readonly gathered: readonly Gathered[];
  readonly rowsInAll: number;
  /** Rows of the longest group. */
  readonly stride: number;
  private readonly source: ByteSource;
  private readonly metadata: FileMetaData;
  private group = 0;
  private taken = 0;

  /** @throws ProblemError "damaged", "too-large" with more than `most` cells */
  static of(source: ByteSource, most: number): Promise<ParquetRows> {
    return undamaged(source, async () => {
      const metadata = await parquetMetadataAsync(fileOf(source));
      return new ParquetRows(source, metadata, most);
    });
  }

  private constructor(source: ByteSource, metadata: FileMetaData, most: number) {
    this.source = source;
    this.metadata = metadata;
    const schema = parquetSchema(metadata).children;
    this.rowsInAll = Number(metadata.num_rows);
    if (!(this.rowsInAll >= 0) || this.rowsInAll * schema.length > most) throw tooLarge(source.name, this.rowsInAll);
    for (const group of metadata.row_groups) refuseClaims(group, source);
    this.stride = Math.max(0, ...metadata.row_groups.map(({ num_rows }) => Number(num_rows)));
    this.gathered = schema
      .filter(({ element }) => (element.type ?? "") !== "")
      .map(({ element }) => ({ header: element.name, column: new Column("double"), hasValue: false }));
  }

  /** Puts the rows of the next group into the columns; as `Filling.next`. @throws ProblemError "damaged" */
  async next(): Promise<number | null> {
    const { metadata, source } = this;
    const group = metadata.row_groups[this.group++];
    if (!group) return null;
    await undamaged(source, () => this.take(group));
    return Math.round((this.taken / Math.max(1, this.rowsInAll)) * source.size);
  }

  private async take(group: RowGroup): Promise<void> {
    const { metadata, source, gathered } = this;
    for (const { meta_data } of group.columns) {
      if (!meta_data) continue;
      const from = Number(meta_data.dictionary_page_offset ?? meta_data.data_page_offset);
      const size = Number(meta_data.total_compressed_size);
      if (!(from >= 4 && size >= 0 && from + size <= source.size))
        throw damaged(source.name, "a column lies outside the file");
      checkPages(await fileOf(source).slice(from, from + size), Number(meta_data.num_values));
    }
    const before = gathered.map(({ column }) => column.length);
    const rowStart = this.taken;
    const rowEnd = rowStart + Number(group.num_rows);
    await parquetRead({
      file: fileOf(source),
      metadata,
      rowStart,
      rowEnd,
      onChunk({ columnName, columnData, rowStart: at }) {
        const c = gathered.findIndex(({ header }) => header === columnName);
        if (c >= 0) gather(gathered[c]!, columnData, before[c]! + at - rowStart);
      },
      compressors: await codecsFor(source.name, metadata.row_groups),
    });
    // Columns of another kind are shorter, or not there at all.
    const longest = Math.max(0, ...gathered.map(({ column }) => column.length));
    for (const { column } of gathered) pad(column, longest);
    this.taken = rowEnd;
  }
}

function fileOf(source: ByteSource) {
  const slice = async (from: number, to = source.size) => (await source.read(from, to)).slice().buffer as ArrayBuffer;
  return { byteLength: source.size, slice };
}

/** Numbers as they are; dates as s from 1970; booleans as 0 and 1; everything else is missing. */
function gather(gathered: Gathered, cells: ArrayLike<unknown>, at: number): void {
  const { column } = gathered;
  pad(column, at);
  for (let i = column.length - at; i < cells.length; i++) {
    const cell = cells[i];
    if (cell instanceof Date) gathered.timeUnit = 1;
    const value = numberOf(cell);
    if (!Number.isNaN(value)) gathered.hasValue = true;
    column.push(value);
  }
}

function pad(column: Column, length: number): void {
  while (column.length < length) column.push(Number.NaN);
}

function numberOf(cell: unknown): number {
  if (typeof cell === "number") return Number.isFinite(cell) ? cell : Number.NaN;
  if (typeof cell === "bigint") return Number(cell);
  if (cell instanceof Date) return cell.getTime() / 1000;
  return typeof cell === "boolean" ? Number(cell) : Number.NaN;
}

/** What the decoder throws is the user's trouble. */
async function undamaged<T>(source: ByteSource, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof ProblemError) throw error;
    throw damaged(source.name, error);
  }
}

/** Claimed sizes far beyond the file are a bomb or a lie. Snappy and gzip pack at most about 1 : 1000. */
function refuseClaims({ columns, num_rows }: RowGroup, source: ByteSource): void {
  if (!(Number(num_rows) >= 0)) throw damaged(source.name, "one of its groups does not say how many rows it has");
  const sum = columns.reduce((all, { meta_data }) => all + Number(meta_data?.total_uncompressed_size ?? 0), 0);
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
  const why = reasonIn(error);
  return new ProblemError({
    code: "damaged",
    what: `${name} looks like Parquet, but it cannot be read: ${why.slice(0, 200)}.`,
    remedy: "Write it again, or export the recording as CSV.",
    where: name,
  });
}

/** What the decoder says of the file; what the language says of the decoder is no reason for a person. */
function reasonIn(error: unknown): string {
  const isOfLanguage = error instanceof TypeError || error instanceof RangeError || error instanceof ReferenceError;
  if (isOfLanguage) return "parts of it are missing, or lie elsewhere than it says";
  return error instanceof Error ? error.message : String(error);
}
