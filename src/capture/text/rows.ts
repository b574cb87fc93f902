// The rows of a text, streamed: never the whole text in memory.

import { ProblemError } from "../../problem.ts";
import { breathe } from "../bytes/breathe.ts";
import type { ByteSource, ReadReport } from "../model/reader.ts";
import type { RemarkBook } from "../model/remarks.ts";
import { oneLineEnd } from "./encoding.ts";
import type { TextPlan } from "./plan.ts";
import { splitRows } from "./split.ts";

/** A place in the text: byte and 1-based line. */
export interface Place {
  readonly offset: number;
  readonly line: number;
}

const pieceBytes = 1024 * 1024;
const longestRow = 4 * 1024 * 1024; // characters; beyond it a quote was never closed, or it is no table

export interface RowSink {
  /** `isCutOff`: the last row, without a line end. */
  row(cells: readonly string[], line: number, isCutOff: boolean): void;
  /** Called now and again: more rows have come. */
  grown?(): Promise<void>;
}

/**
 * Hands every row from `from` on to `sink`. Reports bytes, breathes so that a cancel is heard.
 *
 * @throws ProblemError "cancelled"
 */
export async function eachRow(
  source: ByteSource,
  plan: TextPlan,
  from: Place,
  sink: RowSink,
  report: ReadReport,
  remarks: RemarkBook,
): Promise<void> {
  const decoder = new TextDecoder(plan.encoding);
  const splitter = new Splitter(plan, from.line, sink, remarks);
  for (let at = from.offset; at < source.size; ) {
    const bytes = await source.read(at, Math.min(at + pieceBytes, source.size));
    if (bytes.length === 0) break;
    splitter.take(decoder.decode(bytes, { stream: true }));
    at += bytes.length;
    report.progress(at, source.size);
    await sink.grown?.();
    await breathe(report.signal, source.name);
  }
  splitter.take(decoder.decode());
  splitter.finish();
}

class Splitter {
  #rest = "";
  #quotes = true;
  #skipping = false;
  #line: number;
  readonly #plan: TextPlan;
  readonly #sink: RowSink;
  readonly #remarks: RemarkBook;

  constructor(plan: TextPlan, line: number, sink: RowSink, remarks: RemarkBook) {
    this.#plan = plan;
    this.#line = line;
    this.#sink = sink;
    this.#remarks = remarks;
  }

  take(text: string): void {
    if (text === "") return;
    const joined = this.#rest + text;
    // A CR at the end may be half of a CRLF.
    const end = joined.endsWith("\r") ? joined.length - 1 : joined.length;
    const ready = this.#skip(oneLineEnd(joined.slice(0, end)));
    const { rows, taken } = splitRows(ready, this.#plan.delimiter, false, this.#quotes);
    this.#hand(rows, ready.slice(0, taken), "more");
    this.#rest = ready.slice(taken) + joined.slice(end);
    if (this.#rest.length > longestRow) this.#giveUpRow();
  }

  finish(): void {
    const ready = this.#skip(oneLineEnd(this.#rest));
    this.#rest = "";
    if (ready === "") return;
    if (this.#quotes && ready.includes('"')) this.#closeQuotes(ready);
    else this.#hand(splitRows(ready, this.#plan.delimiter, true, this.#quotes).rows, ready, endOf(ready));
  }

  /** A quote that is open at the end of the file swallowed rows: they are read with quotes as plain characters. */
  #closeQuotes(ready: string): void {
    const { rows } = splitRows(ready, this.#plan.delimiter);
    const swallowed = rows.some((row) => row.some((cell) => cell.split("\n").length > 3));
    if (swallowed)
      this.#remarks.tally(
        "a quote is never closed; quotes were read as plain characters from there",
        `line ${this.#line}`,
      );
    const again = swallowed ? splitRows(ready, this.#plan.delimiter, true, false).rows : rows;
    this.#quotes = !swallowed;
    this.#hand(again, ready, endOf(ready));
  }

  /** What is left of a row that was given up. */
  #skip(text: string): string {
    if (!this.#skipping) return text;
    const end = text.indexOf("\n");
    if (end < 0) return "";
    this.#skipping = false;
    this.#line++;
    return text.slice(end + 1);
  }

  #giveUpRow(): void {
    if (this.#quotes && this.#rest.includes("\n")) {
      this.#remarks.tally(
        "a quote is never closed; quotes were read as plain characters from there",
        `line ${this.#line}`,
      );
      this.#quotes = false;
      return;
    }
    this.#remarks.tally(`lines longer than ${longestRow} characters were left out`, `line ${this.#line}`);
    this.#rest = "";
    this.#skipping = true;
  }

  #hand(rows: readonly string[][], text: string, end: "more" | "whole" | "cut off"): void {
    const counts = this.#quotes && text.includes('"');
    const last = rows.length - 1;
    rows.forEach((row, r) => {
      if (r === last && end === "whole" && row.length === 1 && row[0] === "") return; // behind the last line end
      this.#sink.row(row, this.#line, end === "cut off" && r === last);
      this.#line += counts ? row.reduce((sum, cell) => sum + breaksIn(cell), 1) : 1;
    });
  }
}

/** How the file ends. */
const endOf = (text: string) => (text.endsWith("\n") ? "whole" : "cut off");

function breaksIn(cell: string): number {
  let count = 0;
  for (let at = cell.indexOf("\n"); at >= 0; at = cell.indexOf("\n", at + 1)) count++;
  return count;
}

export function emptyFile(name: string): ProblemError {
  return new ProblemError({
    code: "empty",
    what: `${name} is empty: it holds no bytes.`,
    remedy: "Copy the recording from the recorder again; the copy may have been cut short.",
    where: name,
  });
}
