// The long form: one row per sample, with the channel's name in it.

import { Column, type Precision } from "../model/columns.ts";
import type { ReadChoices } from "../model/reader.ts";
import type { RemarkBook } from "../model/remarks.ts";
import { isMissing, numberIn } from "./numbers.ts";
import type { TablePlan, TextPlan } from "./plan.ts";
import type { RowSink } from "./rows.ts";
import { isBlankRow } from "./split.ts";
import { statusIn } from "./status.ts";
import { cellsOf } from "./table.ts";
import { type CellTime, cellTime } from "./time-cells.ts";
import { titleOf } from "./titles.ts";

export interface LongChannel {
  readonly name: string;
  readonly header: string;
  readonly fileUnit: string;
  /** What stands in the columns of keys, in their order. */
  readonly keys: readonly string[];
  readonly times: Column;
  readonly values: Column;
}

const mostChannels = 2000;

export class LongBody implements RowSink {
  readonly channels = new Map<string, LongChannel>();
  readonly #plan: TextPlan;
  readonly #table: TablePlan;
  readonly #remarks: RemarkBook;
  readonly #time: CellTime;
  readonly #at: { readonly channel: number; readonly unit: number; readonly value: number };
  readonly #keys: readonly number[];

  constructor(plan: TextPlan, remarks: RemarkBook) {
    this.#plan = plan;
    this.#table = plan.table;
    this.#remarks = remarks;
    this.#time = cellTime(plan.table);
    const indexOf = (use: string) => plan.table.columns.findIndex((column) => column.use === use);
    this.#keys = plan.table.columns.flatMap(({ use }, i) => (use === "key" ? [i] : []));
    this.#at = { channel: indexOf("channel"), unit: indexOf("unit"), value: indexOf("value") };
  }

  row(written: readonly string[], line: number, isCutOff: boolean): void {
    if (isBlankRow(written)) return;
    const cells = cellsOf(written, this.#plan, this.#table);
    const name = (cells[this.#at.channel] ?? "").trim();
    const column = this.#table.time.column;
    const time = column === null ? 0 : this.#time(cells, column);
    const cell = cells[this.#at.value] ?? "";
    const value = this.#valueOf(cell);
    if (
      name === "" ||
      Number.isNaN(time) ||
      (Number.isNaN(value) && !isMissing(cell)) ||
      (isCutOff && cells.length < this.#table.columns.length)
    ) {
      this.#remarks.tally("lines that are no row of numbers were left out", `line ${line}`);
      return;
    }
    const keys = this.#keys.map((i) => (cells[i] ?? "").trim());
    const channel = this.#channel(name, keys, (cells[this.#at.unit] ?? "").trim(), this.#plan.precision);
    if (!channel) {
      this.#remarks.tally(`channels beyond ${mostChannels} were left out`, `line ${line}`);
      return;
    }
    channel.times.push(time);
    channel.values.push(value);
  }

  #valueOf(cell: string): number {
    const value = numberIn(cell, this.#table.columns[this.#at.value]!.decimalMark);
    return Number.isNaN(value) && !isMissing(cell) ? (statusIn(cell) ?? value) : value;
  }

  #channel(name: string, keys: readonly string[], unit: string, precision: Precision): LongChannel | null {
    const id = [name, ...keys].join("\u001f");
    const known = this.channels.get(id);
    if (known || this.channels.size >= mostChannels) return known ?? null;
    const title = titleOf(name);
    const fileUnit = unit || title.fileUnit || this.#table.columns[this.#at.value]!.fileUnit;
    const made = {
      name: title.name || name,
      header: name,
      fileUnit,
      keys,
      times: new Column("double"),
      values: new Column(precision),
    };
    this.channels.set(id, made);
    return made;
  }

  /** Channels that share a name are told apart by the keys that differ among them: "O2 B1S1 (A)", "O2 sensor 1 (bank 2)". */
  named(): LongChannel[] {
    const all = [...this.channels.values()];
    return all.map((channel) => {
      const alike = all.filter(({ header }) => header === channel.header);
      const apart = channel.keys.flatMap((key, k) =>
        alike.some(({ keys }) => keys[k] !== key) ? [this.#keyWords(key, k)] : [],
      );
      const added = apart.length === 0 ? "" : ` (${apart.join(", ")})`;
      return { ...channel, name: channel.name + added, header: channel.header + added };
    });
  }

  #keyWords(key: string, k: number): string {
    return /^\d+$/.test(key) ? `${this.#table.columns[this.#keys[k]!]!.name} ${key}` : key;
  }
}

/** Whether choices let the long form stand. */
export function isLong(table: TablePlan, choices: ReadChoices): boolean {
  return table.layout === "long" && choices.rate === undefined;
}
