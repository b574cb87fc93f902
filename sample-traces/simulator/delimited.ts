// Writes a recording as delimited text, in one of many dialects.

import type { Recording } from "./recorder.ts";
import type { Quantity } from "./run.ts";

export interface Dialect {
  readonly delimiter: string;
  readonly decimalMark: "." | ",";
  /** Lines ahead of the header. */
  readonly preamble: readonly string[];
  readonly time: { readonly name: string; readonly perSecond: number; readonly decimals: number };
  /** Clock time of the first row, s of the day; the time column is then hh:mm:ss with decimals. */
  readonly clock?: number;
  readonly columns: Partial<Record<Quantity, DialectColumn>>;
  /** A row of units under the header. */
  readonly units?: readonly string[];
  readonly lineEnd: "\n" | "\r\n";
}

export interface DialectColumn {
  readonly name: string;
  readonly decimals: number;
  /** The file's units in one of ours: 1000 for mV. */
  readonly scale?: number;
}

/** @returns the whole file; throws RangeError when the dialect lacks a name for a recorded column. */
export function writeDelimited(recording: Recording, dialect: Dialect): string {
  const columns = recording.columns.map(({ quantity, samples }) => {
    const column = dialect.columns[quantity];
    if (!column) throw new RangeError(`the dialect names no column for ${quantity}`);
    return { samples, ...column };
  });
  const marked = (text: string) => (dialect.decimalMark === "," ? text.replace(".", ",") : text);
  const lines = [...dialect.preamble, [dialect.time.name, ...columns.map(({ name }) => name)].join(dialect.delimiter)];
  if (dialect.units) lines.push(dialect.units.join(dialect.delimiter));
  recording.stamps.forEach((seconds, row) => {
    const cells = [timeCell(seconds, dialect)];
    for (const { samples, decimals, scale = 1 } of columns) cells.push(fixed(samples[row]! * scale, decimals));
    lines.push(cells.map(marked).join(dialect.delimiter));
  });
  return `${lines.join(dialect.lineEnd)}${dialect.lineEnd}`;
}

function timeCell(seconds: number, { time, clock }: Dialect): string {
  if (clock === undefined) return fixed(seconds * time.perSecond, time.decimals);
  const whole = clock + seconds;
  const two = (part: number) => String(Math.floor(part)).padStart(2, "0");
  const rest = (whole % 60).toFixed(time.decimals).padStart(time.decimals + 3, "0");
  return `${two(whole / 3600)}:${two((whole / 60) % 60)}:${rest}`;
}

/** Never "-0.000". */
function fixed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return text.startsWith("-") && Number(text) === 0 ? text.slice(1) : text;
}
