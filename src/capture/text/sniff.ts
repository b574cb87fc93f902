// A text's plan from its first bytes.

import { roleNamedBy } from "../meaning/roles.ts";
import type { ByteSource, ReadChoices } from "../model/reader.ts";
import { type Dialect, dialectOf } from "./dialect.ts";
import { decodeHead, encodingOf } from "./encoding.ts";
import type { TextBytes } from "./encodings.ts";
import { refuseMarkChange } from "./mark-change.ts";
import type { TablePlan, TextPlan } from "./plan.ts";
import { splitRows } from "./split.ts";
import { planTable } from "./table.ts";
import { isTimeName } from "./time-column.ts";
import { titleOf } from "./titles.ts";

const headSizes = [128 * 1024, 1024 * 1024, 8 * 1024 * 1024];

/** Plans a whole source: looks further into it where a long preamble fills the first bytes. Null where no numbers stand. */
export async function sniffSource(source: ByteSource, choices: ReadChoices): Promise<TextPlan | null> {
  for (const size of headSizes) {
    const plan = sniffText(await source.read(0, Math.min(size, source.size)), choices, source.size);
    if (plan || source.size <= size) return plan;
  }
  return null;
}

// Files above this store samples in single precision: 7 digits, more than any recorder resolves, at half the memory.
const singleAbove = 32 * 1024 * 1024;

/**
 * Understands a text from its first bytes.
 *
 * @param head   the first bytes, whole file or a good part of it.
 * @param size   bytes of the whole file; below `head.length` + 1 the head is all there is.
 * @returns null where no row of numbers stands in the head.
 */
export function sniffText(head: Uint8Array, choices: ReadChoices, size = head.length): TextPlan | null {
  const bytes = encodingOf(head);
  const text = wholeLines(decodeHead(head, bytes), size <= head.length);
  if (!/\d/.test(text)) return null; // megabytes of line ends are not cut into rows to find that out
  const dialect = dialectOf(text, choices);
  const rows = rowsOf(text, dialect);
  refuseMarkChange(rows, dialect.delimiter);
  const table = planTable(rows, dialect, choices);
  if (!table) return null;
  const start = lineOfRow(rows, table.bodyRow);
  const bodyOffset = offsetOfLine(head, bytes, start);
  const bodyLines = Math.max(1, text.split("\n").length - start);
  return {
    ...bytes,
    ...dialect,
    table,
    bodyOffset,
    bodyLine: start + 1,
    bytesPerRow: Math.max(1, (head.length - bodyOffset) / bodyLines),
    clean: isClean(bytes, dialect, table, text),
    precision: size > singleAbove ? "single" : "double",
  };
}

/** 1-based line of a row of at least two known names or units in a text without numbers; null where there is none. */
export function headerLine(head: Uint8Array): number | null {
  const lines = decodeHead(head, encodingOf(head)).split("\n");
  const known = (cell: string) => {
    const { name, fileUnit } = titleOf(cell.replace(/^"|"$/g, ""));
    return roleNamedBy(name, fileUnit).role !== "other" || isTimeName(name);
  };
  const at = lines.findIndex((line) => [",", ";", "\t", "|"].some((mark) => line.split(mark).filter(known).length > 1));
  return at < 0 ? null : at + 1;
}

/** Among columns set apart by blanks names may hold single blanks: a line that falls into enough parts at wide ones is cut there. */
function rowsOf(text: string, { delimiter }: Dialect): string[][] {
  const { rows } = splitRows(text, delimiter);
  if (delimiter !== " " || text.includes('"')) return rows;
  const lines = text.split("\n");
  const width = rows[rows.length >> 1]?.length ?? 0;
  return rows.map((row, r) => {
    const parts = lines[r]!.trim().split(/\s{2,}|\t/);
    return row.length > width && parts.length === width ? parts : row;
  });
}

function wholeLines(text: string, isAll: boolean): string {
  const end = text.lastIndexOf("\n");
  return isAll || end < 0 ? text : text.slice(0, end + 1);
}

/** Line (from 0) at which a row begins: quoted cells may hold line breaks. */
function lineOfRow(rows: readonly string[][], index: number): number {
  let line = 0;
  for (let r = 0; r < index; r++) line += 1 + rows[r]!.reduce((sum, cell) => sum + (cell.split("\n").length - 1), 0);
  return line;
}

/** Byte at which line `line` (from 0) begins. Lines end in LF, CRLF or CR. */
function offsetOfLine(head: Uint8Array, { encoding, skip }: TextBytes, line: number): number {
  const width = encoding.startsWith("utf-16") ? 2 : 1;
  const low = encoding === "utf-16be" ? 1 : 0;
  let at = skip;
  for (let seen = 0; seen < line && at + width <= head.length; at += width) {
    const code = head[at + low]! | (width === 2 ? head[at + 1 - low]! << 8 : 0);
    const next = head[at + width + low];
    if (code === 10 || (code === 13 && next !== 10)) seen++;
  }
  return at;
}

function isClean({ encoding }: TextBytes, dialect: Dialect, table: TablePlan, text: string): boolean {
  const plainTime = table.time.form.kind === "number" || table.time.form.kind === "rate";
  const uses = table.columns.every(
    ({ use, unitInside, decimalMark }) =>
      !unitInside && decimalMark === dialect.decimalMark && (use === "value" || use === "time"),
  );
  return (
    !encoding.startsWith("utf-16") &&
    !dialect.joinPairs &&
    plainTime &&
    uses &&
    table.layout === "rows" &&
    !text.includes('"')
  );
}
