// A decimal mark that changes inside a file: the numbers on one side of it cannot be trusted, so nothing is read.

import { ProblemError } from "../../problem.ts";
import type { Delimiter } from "./split.ts";

const withPoint = /^[+-]?\d+\.\d+$/;
/** Three digits may be thousands, unless a zero stands before. */
const withComma = /^[+-]?(?:\d+,(?:\d{1,2}|\d{4,})|0,\d+)$/;
/** What is longer is no number; millions of digits would overflow the stack of an expression that tries them one by one. */
const longestNumber = 64;
/** So many cells of a column on either side of the change, at least. */
const least = 3;

/**
 * @param rows  of the file's head, as cut apart.
 * @throws ProblemError "unclear" where columns are written with one mark down to some row, and with the other from there on.
 */
export function refuseMarkChange(rows: readonly (readonly string[])[], delimiter: Delimiter): void {
  if (delimiter === ",") return;
  const width = rows.reduce((most, row) => Math.max(most, row.length), 0);
  for (let column = 0; column < width; column++) {
    const change = changeIn(rows, column);
    if (change === null) continue;
    const [before, after] = change.toComma ? ["point", "comma"] : ["comma", "point"];
    throw new ProblemError({
      code: "unclear",
      what: `The decimal mark changes at line ${change.row + 1}: numbers above it are written with a ${before}, from there on with a ${after}.`,
      remedy: `Export the recording again with one mark throughout, or replace the ${after} by a ${before} from that line on.`,
      where: `line ${change.row + 1}`,
    });
  }
}

/** The row from which on a column has the other mark; null where it keeps one, or has both in turn. */
function changeIn(
  rows: readonly (readonly string[])[],
  column: number,
): { readonly row: number; readonly toComma: boolean } | null {
  const marked: { readonly row: number; readonly isComma: boolean }[] = [];
  for (let row = 0; row < rows.length; row++) {
    const whole = rows[row]![column] ?? "";
    if (whole.length > longestNumber) continue;
    const cell = whole.trim();
    const isComma = withComma.test(cell);
    if (isComma || withPoint.test(cell)) marked.push({ row, isComma });
  }
  const at = marked.findIndex(({ isComma }) => isComma !== marked[0]!.isComma);
  if (at < least || marked.length - at < least) return null;
  const isKept = marked.slice(at).every(({ isComma }) => isComma === marked[at]!.isComma);
  return isKept ? { row: marked[at]!.row, toComma: marked[at]!.isComma } : null;
}
