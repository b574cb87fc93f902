// Columns as a reader hands them over: named and stamped as the file has them, not yet channels.

import type { Hertz } from "../../signal/numbers/units.ts";
import type { Samples } from "../../signal/series/series.ts";
import type { WrittenStamps } from "./stamps.ts";

/** One column as the file has it. Columns that share a `time` object share their times. */
export interface Recorded {
  /** Named by its place in the file, so that it stays the same however the file is read. */
  readonly id: string;
  readonly name: string;
  /** The name as the file writes it, unit and all: choices may use either. */
  readonly header: string;
  readonly fileUnit: string;
  readonly values: Samples;
  /** True where it is known that no value is NaN: then none need be looked for. */
  readonly isFull?: boolean;
  readonly time: WrittenStamps | { readonly rate: Hertz };
  readonly words?: Readonly<Record<number, string>>;
  /** On and off: whatever its name says, it is not that quantity itself. */
  readonly isSwitch?: boolean;
}

/** What a column of a recording holds. */
export type Numbers = Pick<Recorded, "values" | "isFull">;

export interface Recording {
  readonly name: string;
  readonly format: string;
  /** One row per instant, without a stamp per channel. */
  readonly isRowLog: boolean;
  /** What has been read so far, to be seen: repeats are told once all is there. */
  readonly isPart?: boolean;
  readonly rowsAreSimultaneous: boolean;
  /** Stamps carry their zone; else they are the recorder's own clock. */
  readonly hasZone: boolean;
  readonly columns: readonly Recorded[];
}

/** Whether a column holds any value at all. */
export function hasValue(values: Samples): boolean {
  for (let i = 0; i < values.length; i++) if (!Number.isNaN(values[i]!)) return true;
  return false;
}
