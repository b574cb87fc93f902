// A text may hold several tables, one after another: each gets a plan and a body of its own.

import { isUnit } from "../meaning/quantities.ts";
import type { ReadChoices } from "../model/reader.ts";
import type { RemarkBook } from "../model/remarks.ts";
import { TableBody } from "./body.ts";
import { isDataRow, kindOf } from "./kinds.ts";
import type { RowSink } from "./rows.ts";
import { planTable } from "./table.ts";

interface HeldRow {
  readonly cells: readonly string[];
  readonly line: number;
  readonly isCutOff: boolean;
}

const looked = 40; // rows behind a second header that are looked at before it is believed
const mostBlocks = 200;

export class Blocks implements RowSink {
  readonly bodies: TableBody[];
  #held: HeldRow[] = [];
  readonly #choices: ReadChoices;
  readonly #remarks: RemarkBook;

  constructor(first: TableBody, choices: ReadChoices, remarks: RemarkBook) {
    this.bodies = [first];
    this.#choices = choices;
    this.#remarks = remarks;
  }

  get #body(): TableBody {
    return this.bodies[this.bodies.length - 1]!;
  }

  /** Whether rows go to another table than the first, or may yet. */
  get isWaiting(): boolean {
    return this.#held.length > 0 || this.bodies.length > 1;
  }

  row(cells: readonly string[], line: number, isCutOff: boolean): void {
    if (this.#held.length > 0) this.#hold({ cells, line, isCutOff });
    else if (!this.#body.take(cells, line, isCutOff)) {
      if (this.#mayBeHeader(cells)) this.#held = [{ cells, line, isCutOff }];
      else this.#stray(line);
    }
  }

  finish(): void {
    while (this.#held.length > 0) this.#settle();
  }

  #hold(row: HeldRow): void {
    this.#held.push(row);
    if (this.#held.length > looked) this.#settle();
  }

  #mayBeHeader(cells: readonly string[]): boolean {
    const filled = cells.filter((cell) => cell.trim() !== "");
    const words = filled.filter((cell) => kindOf(cell, this.#body.plan.decimalMark) === "text");
    return (
      this.bodies.length < mostBlocks && filled.length > 1 && words.length * 2 >= filled.length && !filled.every(isUnit)
    );
  }

  /** Believes the held rows to be a new table, or gives them back to the one before. */
  #settle(): void {
    const held = this.#held;
    this.#held = [];
    const { plan } = this.#body;
    const table = planTable(
      held.map(({ cells }) => [...cells]),
      plan,
      this.#choices,
    );
    const isTable =
      table !== null &&
      table.bodyRow <= 4 &&
      held.slice(table.bodyRow).filter(({ cells }) => isDataRow(cells, plan.decimalMark)).length > 1;
    if (isTable && table.headerRows.length > 0) {
      this.#remarks.tally(
        "more tables follow inside the file; their channels were read as well",
        `line ${held[0]!.line}`,
      );
      this.#remarks.add(table.remarks);
      this.bodies.push(new TableBody(plan, table, 1024, this.#remarks));
      for (const { cells, line, isCutOff } of held.slice(table.bodyRow)) this.row(cells, line, isCutOff);
      return;
    }
    const [first, ...rest] = held;
    this.#stray(first!.line);
    for (const { cells, line, isCutOff } of rest) this.row(cells, line, isCutOff);
  }

  #stray(line: number): void {
    this.#remarks.tally("lines that are no row of numbers were left out", `line ${line}`);
  }
}
