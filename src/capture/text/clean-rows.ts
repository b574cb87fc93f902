// The body of a clean text, read from bytes: the careful reader is asked only for the lines that are not plain.

import type { Samples } from "../../signal/series/series.ts";
import { breathe } from "../bytes/breathe.ts";
import { sliceStream } from "../bytes/byte-stream.ts";
import type { ByteSource, ByteStream, ReadReport } from "../model/reader.ts";
import type { RemarkBook } from "../model/remarks.ts";
import type { Blocks } from "./blocks.ts";
import type { TableBody } from "./body.ts";
import { ByteRows, type CellUse, type RowShape } from "./byte-rows.ts";
import type { TablePlan, TextPlan } from "./plan.ts";
import type { Place } from "./rows.ts";
import { splitRows } from "./split.ts";

/** Bytes read at once. More gain nothing; a cancel is heard between two. */
const pieceBytes = 2 << 20;
const lineFeed = 10;

export interface CleanBody {
  readonly source: ByteSource;
  readonly plan: TextPlan;
  readonly body: TableBody;
  readonly blocks: Blocks;
  readonly remarks: RemarkBook;
  /** Called now and again: more rows have been put into the body. */
  grown(): Promise<void>;
}

/**
 * Reads rows into `body` from its first line on.
 *
 * @returns where the careful reader must go on: behind the last whole line, or at one after which quotes, a second table
 *          or many odd lines are to be expected.
 * @throws ProblemError "cancelled"
 */
export async function cleanRows(clean: CleanBody, report: ReadReport): Promise<Place> {
  const { source, plan } = clean;
  const stream = source.stream?.(plan.bodyOffset) ?? sliceStream(source, plan.bodyOffset);
  try {
    return await takePieces(stream, new Lines(clean), clean, report);
  } finally {
    stream.close();
  }
}

async function takePieces(stream: ByteStream, lines: Lines, clean: CleanBody, report: ReadReport): Promise<Place> {
  const { source } = clean;
  let bytes = new Uint8Array(Math.min(pieceBytes, Math.max(1, source.size)));
  for (let carried = 0; ; ) {
    const filled = await stream.fill(bytes, carried);
    bytes = filled.bytes;
    const whole = bytes.lastIndexOf(lineFeed, filled.end - 1) + 1;
    if (whole === 0 || filled.end === carried || !lines.take(bytes, whole)) return lines.place;
    bytes.copyWithin(0, whole, filled.end);
    carried = filled.end - whole;
    report.progress(lines.place.offset, source.size);
    await clean.grown();
    await breathe(report.signal, source.name);
  }
}

/** Lines taken in so far, and the few odd ones among them. */
class Lines {
  private offset: number;
  /** 1-based number of the line at `offset`. */
  private line: number;
  private odd = 0;
  private readonly clean: CleanBody;
  private readonly rows: ByteRows;
  private readonly targets: readonly number[];

  constructor(clean: CleanBody) {
    const { plan, body } = clean;
    this.clean = clean;
    this.offset = plan.bodyOffset;
    this.line = plan.bodyLine;
    const shape = shapeOf(plan, body.table);
    this.targets = [...shape.cells.keys()].filter((i) => shape.cells[i] !== "skip");
    this.rows = new ByteRows(shape, (block, count) => this.store(block, count));
  }

  get place(): Place {
    return { offset: this.offset, line: this.line };
  }

  /** Takes the whole lines in [0, end); false where the careful reader must take over at `place`. */
  take(bytes: Uint8Array, end: number): boolean {
    let at = 0;
    while (at < end) {
      const stop = this.rows.read(bytes, at, end);
      this.offset += stop - at;
      at = stop;
      if (at === end) break;
      const behind = bytes.indexOf(lineFeed, at) + 1;
      if (!this.takeOdd(bytes.subarray(at, behind))) return false;
      this.offset += behind - at;
      at = behind;
      if (this.clean.blocks.isWaiting) return false;
    }
    this.rows.flush();
    return true;
  }

  /** Hands a line to the careful reader; false where what follows it is the careful reader's too. */
  private takeOdd(bytes: Uint8Array): boolean {
    const { plan, blocks } = this.clean;
    const text = new TextDecoder(plan.encoding).decode(bytes).replace(/\r?\n$/, "");
    if (/["\r]/.test(text) || ++this.odd > 100 + this.line / 20) return false;
    blocks.row(splitRows(text, plan.delimiter).rows[0] ?? [""], this.line++, false);
    return true;
  }

  private store(block: Float64Array, count: number): void {
    const { columns } = this.clean.body;
    for (const target of this.targets) {
      const column = columns[target]!;
      if (this.rows.isWide[target]) column.widen();
      column.append(block, target, columns.length, count);
      if (this.rows.hadEmpty[target]) {
        column.isFull = false;
        this.remarkOnEmpty(column.soFar().subarray(-count), target);
      }
    }
    this.rows.hadEmpty.fill(0);
    this.line += count;
  }

  private remarkOnEmpty(values: Samples, target: number): void {
    let empty = 0;
    for (const value of values) if (Number.isNaN(value)) empty++;
    const first = values.findIndex(Number.isNaN);
    if (empty > 0) this.clean.body.remarkOnMissing(target, `line ${this.line + first}`, empty);
  }
}

/** Without a time column a row counts only for its values: then none may be empty. */
function shapeOf({ delimiter, decimalMark }: TextPlan, { columns, time }: TablePlan): RowShape {
  const cells = columns.map(({ use }): CellUse => {
    if (use === "time") return "number";
    if (use !== "value") return "skip";
    return time.column === null ? "number" : "number-or-empty";
  });
  return { delimiter: delimiter.charCodeAt(0), decimalMark: decimalMark.charCodeAt(0), cells };
}
