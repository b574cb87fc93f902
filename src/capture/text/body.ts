// Rows of a text's body put into columns by the plan, and everything that does not fit counted and located.

import { conversionOf, toCanonical } from "../meaning/quantities.ts";
import { Column } from "../model/columns.ts";
import { missingCells, type RemarkBook } from "../model/remarks.ts";
import { isDataRow } from "./kinds.ts";
import { isMissing, numberIn, writtenNumber } from "./numbers.ts";
import type { ColumnPlan, ColumnUse, TablePlan, TextPlan } from "./plan.ts";
import { isBlankRow, isComment } from "./split.ts";
import { statusIn, switchIn } from "./status.ts";
import { cellsOf } from "./table.ts";
import { type CellTime, cellTime } from "./time-cells.ts";

/** Filled by rows, or by a fast reader of clean bodies that writes into `columns` (by column of the plan) straight away. */
export class TableBody {
  readonly plan: TextPlan;
  readonly table: TablePlan;
  /** By column of the plan; null where nothing is kept. Time columns are always double. Values as written, units not yet converted. */
  readonly columns: readonly (Column | null)[];
  /** By column of the plan: the words behind the numbers of a status or a switch. */
  readonly words: readonly Record<number, string>[];
  readonly #remarks: RemarkBook;
  readonly #scratch: Float64Array;
  readonly #times: readonly (CellTime | null)[];
  readonly #isHeader: (cells: readonly string[]) => boolean;

  /** @param rows  rough number of rows to make room for. */
  constructor(plan: TextPlan, table: TablePlan, rows: number, remarks: RemarkBook) {
    this.plan = plan;
    this.table = table;
    this.#remarks = remarks;
    this.#scratch = new Float64Array(table.columns.length);
    this.columns = table.columns.map(({ use }) => {
      if (use === "time") return new Column("double", rows);
      return isKept(use) ? new Column(plan.precision, rows) : null;
    });
    this.words = table.columns.map(() => ({}));
    this.#times = table.columns.map(({ use }) => (use === "time" ? cellTime(table) : null));
    const headers = new Set(table.headerRows.map((row) => keyOf(row)));
    this.#isHeader = (cells) => headers.has(keyOf(cells));
  }

  get rows(): number {
    return this.columns.find((column) => column !== null)?.length ?? 0;
  }

  /** Takes a row in; false when it is no row of this table and no known kind of bystander. */
  take(written: readonly string[], line: number, isCutOff: boolean): boolean {
    const cells = cellsOf(written, this.plan, this.table);
    const isShort = cells.length < this.table.columns.length;
    if (isCutOff && (isShort || this.#isCutNumber(cells)) && !isBlankRow(cells))
      return this.#leave("the last row is cut off and was left out", line);
    if (!this.#parse(cells) || isComment(cells)) {
      const bystander = this.#bystander(cells, line);
      if (bystander !== "row") return bystander === "known";
    }
    if (cells.length !== this.table.columns.length) this.#remarkOnWidth(cells, line);
    this.#push(cells, line);
    return true;
  }

  /** The last cell has fewer digits than any before it in its column. */
  #isCutNumber(cells: readonly string[]): boolean {
    const column = this.table.columns[cells.length - 1];
    const written = column?.isFixed ? writtenNumber(cells.at(-1) ?? "", column.decimalMark) : null;
    return written !== null && written.decimals < column!.decimals;
  }

  /** Fills the scratch row; true when it has a time, or without a time column any value. */
  #parse(cells: readonly string[]): boolean {
    const { columns, time } = this.table;
    let values = 0;
    for (let i = 0; i < columns.length; i++) {
      if (this.columns[i] === null) continue;
      const value = this.#valueOf(columns[i]!, i, cells);
      this.#scratch[i] = value;
      if (!Number.isNaN(value)) values++;
    }
    return time.column === null ? values > 0 : !Number.isNaN(this.#scratch[time.column]!);
  }

  /** A row without a time or a value: a kind that is known and left out, a row with holes, or a stranger. */
  #bystander(cells: readonly string[], line: number): "known" | "row" | "stranger" {
    if (isBlankRow(cells)) return "known";
    if (isComment(cells)) {
      this.#leave("comment lines were left out", line);
      return "known";
    }
    if (this.#isHeader(cells)) {
      this.#leave("the header stands again inside the file", line);
      return "known";
    }
    return cells.every(isMissing) || isDataRow(cells, this.plan.decimalMark) ? "row" : "stranger";
  }

  #push(cells: readonly string[], line: number): void {
    for (let i = 0; i < this.columns.length; i++) {
      const column = this.columns[i];
      if (!column) continue;
      const value = this.#scratch[i]!;
      if (Number.isNaN(value) && !this.#isPadding(i)) this.#remarkOnCell(cells[i] ?? "", this.table.columns[i]!, line);
      column.push(value);
    }
  }

  /** Behind the end of a channel that has its own, shorter time column. */
  #isPadding(i: number): boolean {
    const { stampedBy } = this.table.columns[i]!;
    return stampedBy !== undefined && Number.isNaN(this.#scratch[stampedBy]!);
  }

  #leave(text: string, line: number): true {
    this.#remarks.tally(text, `line ${line}`);
    return true;
  }

  #remarkOnWidth(cells: readonly string[], line: number): void {
    const width = this.table.columns.length;
    if (cells.length < width)
      this.#remarks.tally("rows with fewer cells than columns: the rest was taken as missing", `line ${line}`);
    else if (cells.length > width && cells.slice(width).some((cell) => cell.trim() !== "")) {
      this.#remarks.tally("rows with more cells than columns: the rest was left out", `line ${line}`);
    }
  }

  #valueOf(column: ColumnPlan, i: number, cells: readonly string[]): number {
    const cell = cells[i] ?? "";
    if (column.use === "time") return this.#times[i]!(cells, i);
    if (column.use === "status") return this.#word(cell, i, isMissing(cell) ? null : statusIn(cell));
    if (column.use === "switch") return this.#word(cell, i, switchIn(cell));
    return column.unitInside ? this.#inside(cell, column) : numberIn(cell, column.decimalMark);
  }

  #word(cell: string, i: number, number: number | null): number {
    if (number === null) return Number.NaN;
    if (!/^\s*\d+\s*$/.test(cell)) this.words[i]![number] ??= cell.trim();
    return number;
  }

  #inside(cell: string, column: ColumnPlan): number {
    const written = writtenNumber(cell, column.decimalMark);
    if (!written) return Number.NaN;
    return written.unit === "" || written.unit === column.fileUnit
      ? written.value
      : toCanonical(written.value, conversionOf(written.unit));
  }

  /** Counts empty cells of column `i` that a fast reader stored as missing. */
  remarkOnMissing(i: number, where: string, count: number): void {
    this.#remarks.tally(missingCells, where, count, this.table.columns[i]!.name);
  }

  #remarkOnCell(cell: string, column: ColumnPlan, line: number): void {
    if (column.use === "time") return; // counted where the times are put in order
    if (isMissing(cell)) this.#remarks.tally(missingCells, `line ${line}`, 1, column.name);
    else this.#remarks.tally("cells that are no numbers were taken as missing", `line ${line}`, 1, column.name);
  }
}

/** Whether the columns of a use become channels. */
export const isKept = (use: ColumnUse): boolean => use === "value" || use === "status" || use === "switch";

const keyOf = (cells: readonly string[]): string => cells.map((cell) => cell.trim()).join("\u001f");
