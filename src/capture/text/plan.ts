// What was understood of a text from its first bytes: dialect, header, columns, time. Everything after reads by this plan.

import type { Hertz, Seconds } from "../../signal/numbers/units.ts";
import type { Words } from "../../signal/written/words.ts";
import type { Remark } from "../model/capture.ts";
import type { Precision } from "../model/columns.ts";
import type { DateOrder } from "./clock.ts";
import type { Dialect } from "./dialect.ts";
import type { TextBytes } from "./encodings.ts";
import type { Factor } from "./factors.ts";
import type { DecimalMark } from "./numbers.ts";
import type { SecondParts } from "./parted-clock.ts";
import type { TimeField } from "./time-fields.ts";

export type ColumnUse =
  | "value"
  | "time"
  | "date"
  | "text"
  | "status"
  | "switch"
  | "channel"
  | "key"
  | "unit"
  | "ignored";

export interface ColumnPlan {
  /** Unit taken off. */
  readonly name: string;
  /** The cell of the header as it stands. */
  readonly header: string;
  readonly fileUnit: string;
  readonly use: ColumnUse;
  /** Cells carry their own units ("0.45 V"): each is converted as it is read, and `fileUnit` is the canonical one. */
  readonly unitInside: boolean;
  /** Usually the dialect's; some programs mix both in one file. */
  readonly decimalMark: DecimalMark;
  /** Most digits behind the decimal mark seen in the head. */
  readonly decimals: number;
  /** Every number has as many of them: one with fewer is cut off. */
  readonly isFixed: boolean;
  /** Time column by which this column is stamped, where each channel has its own; else undefined. */
  readonly stampedBy?: number;
  /** What the numbers are still to be multiplied by. */
  readonly factor?: Factor;
}

export type TimeForm =
  /** Plain numbers; `unit` seconds each, counted from `zero`. `isEpoch`: that is 1970-01-01. */
  | {
      readonly kind: "number";
      readonly unit: Seconds;
      readonly isEpoch: boolean;
      readonly zero: number;
    }
  /** `isPacked`: one number, "125959", which may have lost its zeros in front. */
  | { readonly kind: "clock"; readonly parts: 2 | 3; readonly isPacked?: true }
  | {
      readonly kind: "instant";
      readonly order: DateOrder;
      readonly dateColumn: number | null;
      readonly hasZone: boolean;
    }
  /** Several columns, the finest of which is the column of the plan. */
  | {
      readonly kind: "fields";
      readonly fields: readonly TimeField[];
      readonly isAbsolute: boolean;
      readonly hasZone: boolean;
    }
  /** No stamps: even steps. */
  | { readonly kind: "rate"; readonly rate: Hertz }
  | { readonly kind: "none" };

export interface TimePlan {
  /** Index of the column; null with "rate" and "none". */
  readonly column: number | null;
  readonly form: TimeForm;
  /** Of a clock of whole seconds, where its parts stand beside it. */
  readonly parts?: SecondParts;
  /** Finest difference the stamps can show, s. */
  readonly resolution: Seconds;
  /** False where the user should look: said in `questions`. */
  readonly sure: boolean;
  /** The dates seen so far can be read day first or month first. */
  readonly isDateOpen?: boolean;
  /** Why, in plain words, where something was assumed. */
  readonly assumed?: Words;
  /** With "none": a column that is named like a time; `cell` is one that is understood as none, without it the column stands still. */
  readonly nearly?: { readonly name: string; readonly cell?: string };
}

export type Layout = "rows" | "long" | "time-per-channel";

export interface TablePlan {
  /** Rows (lines) of the head before the first row of the body. */
  readonly bodyRow: number;
  /** The header rows as they stand; a repeat of one inside the body is skipped. */
  readonly headerRows: readonly (readonly string[])[];
  readonly preamble: readonly (readonly string[])[];
  readonly columns: readonly ColumnPlan[];
  readonly time: TimePlan;
  readonly layout: Layout;
  readonly rowsAreSimultaneous: boolean;
  readonly remarks: readonly Remark[];
  /** Column of a clock whose decimals stand in the next cell of each written row; null where none is cut. */
  readonly cutTimeAt: number | null;
}

export interface TextPlan extends TextBytes, Dialect {
  readonly table: TablePlan;
  /** Byte at which the body begins. */
  readonly bodyOffset: number;
  /** 1-based line number there. */
  readonly bodyLine: number;
  /** Mean bytes of a line in the body's head. */
  readonly bytesPerRow: number;
  /**
   * One-byte text without quotes, every kept column a plain number with the dialect's decimal mark, at most one of them the
   * time in plain numbers: a fast reader of bytes may take it up to the first line that is not so.
   */
  readonly clean: boolean;
  readonly precision: Precision;
}
