// The numbers of a NumPy array, from front to back: fields beside each other, or the shorter side of a matrix, as columns.

import { sliceStream } from "../bytes/byte-stream.ts";
import { Column, type Precision } from "../model/columns.ts";
import type { ByteSource, ByteStream } from "../model/reader.ts";
import type { RemarkBook } from "../model/remarks.ts";
import { mostHeader, type NpyField, type NpyHeader, npyHeader, numberIn } from "./npy.ts";

const mostColumns = 256;
/** Bytes read at once, of all planes together. */
const pieceBytes = 2 << 20;

interface Cell {
  readonly column: Column;
  /** Bytes from the beginning of a row of its plane. */
  readonly at: number;
  readonly read: (view: DataView, at: number) => number;
}

/** Bytes in which rows follow each other: all columns of a row together, or where they lie one behind the other, one column. */
interface Plane {
  readonly cells: readonly Cell[];
  /** Bytes of a row. */
  readonly width: number;
  readonly stream: ByteStream;
  bytes: Uint8Array<ArrayBuffer>;
}

export class NpyRows {
  /** By column: its name, "" where it has none. */
  readonly headers: readonly string[];
  readonly columns: readonly Column[];
  readonly rowsInAll: number;
  /** Rows that come at once. */
  readonly stride: number;
  private readonly planes: readonly Plane[];
  private taken = 0;
  private done: number;

  /**
   * @param name  of the array among others; "" where it stands alone.
   * @throws ProblemError "damaged", "no-numbers"
   */
  static async of(source: ByteSource, remarks: RemarkBook, name = ""): Promise<NpyRows> {
    const header = npyHeader(await source.read(0, Math.min(source.size, mostHeader)), source.name);
    return new NpyRows(source, header, remarks, name);
  }

  private constructor(source: ByteSource, header: NpyHeader, remarks: RemarkBook, name: string) {
    const { start, fields, shape } = header;
    const item = Math.max(
      1,
      fields.reduce((sum, { bytes }) => sum + bytes, 0),
    );
    const room = Math.floor((source.size - start) / item);
    const count = shape.reduce((product, size) => product * size, 1);
    if (count > room) remarks.say("the header claims more numbers than the file holds; those that are there were read");
    const isTable = fields.length > 1 || fields[0]!.name !== "";
    const { rows, width, isPlanar } = isTable ? { rows: count, width: 1, isPlanar: false } : sidesOf(header, remarks);
    this.rowsInAll = Math.min(rows, Math.floor(isPlanar ? room : room / width));
    const beside = Math.min(width, mostColumns);
    const nameOf = (c: number) => (name !== "" && width > 1 ? `${name} ${c + 1}` : name);
    let at = 0;
    const cells = fields.flatMap((field) => {
      const first = at;
      at += field.bytes;
      if (field.type === null) return [];
      const cellsOf = (c: number) => ({
        header: isTable ? field.name : nameOf(c),
        cell: {
          column: new Column(precisionOf(field), 0),
          at: first + (isPlanar ? 0 : c * item),
          read: numberIn(field),
        },
      });
      return Array.from({ length: beside }, (_, c) => cellsOf(c));
    });
    this.headers = cells.map(({ header: title }) => title);
    this.columns = cells.map(({ cell }) => cell.column);
    const rowBytes = item * (isPlanar ? beside : width);
    this.stride = Math.min(this.rowsInAll, Math.max(1, Math.floor(pieceBytes / rowBytes)));
    const planes = isPlanar ? cells.map(({ cell }) => [cell]) : [cells.map(({ cell }) => cell)];
    const planeWidth = isPlanar ? item : rowBytes;
    this.planes = planes.map((of, plane) => {
      const from = Math.min(source.size, start + plane * rows * planeWidth);
      const stream = isPlanar ? sliceStream(source, from) : (source.stream?.(from) ?? sliceStream(source, from));
      return { cells: of, width: planeWidth, stream, bytes: new Uint8Array(this.stride * planeWidth) };
    });
    this.done = start;
  }

  /** Puts the next rows into the columns; a number that the file does not hold is missing. As `Filling.next`. */
  async next(): Promise<number | null> {
    const rows = Math.min(this.stride, this.rowsInAll - this.taken);
    if (rows <= 0) return null;
    for (const plane of this.planes) {
      const filled = await plane.stream.fill(plane.bytes, 0);
      plane.bytes = filled.bytes;
      const { buffer } = filled.bytes;
      const view = new DataView(buffer, filled.bytes.byteOffset, filled.end);
      for (const cell of plane.cells) take(cell, view, plane.width, rows);
      this.done += rows * plane.width;
    }
    this.taken += rows;
    return this.done;
  }

  close(): void {
    for (const { stream } of this.planes) stream.close();
  }
}

interface Sides {
  readonly rows: number;
  readonly width: number;
  /** Whether the columns lie one behind the other. */
  readonly isPlanar: boolean;
}

/** The longer side of a matrix is time; a cube is taken for a matrix of its first two sides. */
function sidesOf({ shape, isFortran }: NpyHeader, remarks: RemarkBook): Sides {
  const count = shape.reduce((product, size) => product * size, 1);
  const [first = count, second = 1] = shape.filter((size) => size !== 1);
  if (second === 1 || count === 0) return { rows: count, width: 1, isPlanar: false };
  const isWide = second > first;
  if (isWide) remarks.say("the array is wider than long; its rows were taken as channels");
  const width = isWide ? first : second;
  return { rows: Math.floor(count / width), width, isPlanar: isWide !== (isFortran && shape.length === 2) };
}

function take({ column, at, read }: Cell, view: DataView, width: number, rows: number): void {
  const { length } = column;
  const there = Math.min(rows, Math.floor(view.byteLength / width));
  column.makeRoom(rows);
  const { values } = column;
  let odd = 0; // NaN once a number was not finite
  for (let i = 0, from = at; i < there; i++, from += width) {
    const value = read(view, from);
    values[length + i] = value;
    odd += value - value;
  }
  values.fill(Number.NaN, length + there, length + rows);
  column.length = length + rows;
  if (odd !== 0 || there < rows) column.isFull = false;
}

/** Single where the file itself has no more digits; whole numbers may be counts of a finer unit than the one shown. */
const precisionOf = ({ type }: NpyField): Precision => (type === "f16" || type === "f32" ? "single" : "double");
