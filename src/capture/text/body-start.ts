// Where the rows of numbers begin: settings above them may look like numbers, and other tables may follow.

import { headColumns } from "./head-columns.ts";
import { type CellKind, isDataRow, isValueKind, kindOf } from "./kinds.ts";
import type { DecimalMark } from "./numbers.ts";
import { isBlankRow, isComment } from "./split.ts";

export const judged = 400; // rows of the body that are looked at

/** Rows [from, to), `held` of them with data. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly held: number;
}

/** The first row of the first long stretch of rows that go in step; rows of settings above it do not. */
export function bodyStart(rows: readonly string[][], mark: DecimalMark): number | null {
  const isData = rows.map((row) => !isBlankRow(row) && !isComment(row) && isDataRow(row, mark));
  const stretch = chosenStretch(stretches(rows, isData), rows, mark);
  if (!stretch) return null;
  const { from, to } = stretch;
  const middle = rows
    .slice(from, to)
    .filter((_, i) => isData[from + i])
    .slice(-judged);
  const columns = headColumns(middle, widthOf(middle), mark);
  for (let r = from; r < to; r++) if (isData[r] && inStep(rows[r]!, columns)) return r;
  return from;
}

const longEnough = 20; // rows that begin with a value: more than any block of settings

/** The first long one, as a header that stands again or another table may follow it; without any the longest. */
function chosenStretch(all: readonly Stretch[], rows: readonly string[][], mark: DecimalMark): Stretch | null {
  const long = all.find(({ from, held }) => held >= longEnough && isValueKind(kindOf(rows[from]![0] ?? "", mark)));
  return long ?? all.reduce<Stretch | null>((best, one) => (one.held > (best?.held ?? 0) ? one : best), null);
}

/** Data rows one after another; a row of other words ends a stretch, and so does another width that lasts. */
function stretches(rows: readonly string[][], isData: readonly boolean[]): Stretch[] {
  const found: Stretch[] = [];
  let [from, held] = [-1, 0];
  const close = (to: number) => {
    if (from >= 0) found.push({ from, to, held });
    [from, held] = [-1, 0];
  };
  rows.forEach((row, r) => {
    if (isData[r]) {
      const isOtherWidth = from >= 0 && Math.abs(row.length - rows[from]!.length) > 1 && !isData[r - 1];
      if (isOtherWidth) close(r);
      if (from < 0) from = r;
      else if (row.length !== rows[from]!.length && held < 3 && isData[r + 1] && rows[r + 1]!.length === row.length) {
        close(r); // settings that look like numbers, above the body
        from = r;
      }
      held++;
    } else if (!isBlankRow(row) && !isComment(row)) close(r);
  });
  close(rows.length);
  return found;
}

/** The most usual number of cells, an empty last one not counted where it is always empty. */
export function widthOf(rows: readonly string[][]): number {
  const counts = new Map<number, number>();
  for (const row of rows) counts.set(row.length, (counts.get(row.length) ?? 0) + 1);
  const width = [...counts].reduce((a, b) => (b[1] > a[1] ? b : a), [0, 0])[0];
  const lastIsEmpty = width > 1 && rows.every((row) => row.length !== width || row[width - 1]!.trim() === "");
  return lastIsEmpty ? width - 1 : width;
}

function inStep(
  row: readonly string[],
  columns: readonly { readonly kind: CellKind; readonly mark: DecimalMark }[],
): boolean {
  if (Math.abs(row.length - columns.length) > 1 && row.length < columns.length) return false;
  const asked = columns
    .map(({ kind, mark }, i) => [kind, kindOf(row[i] ?? "", mark)] as const)
    .filter(([kind]) => kind !== "missing");
  const fits = asked.filter(([kind, got]) => kind === got || got === "missing" || kind === "text").length;
  const [first] = asked;
  return fits * 2 >= asked.length && (!first || first[0] === first[1] || first[1] === "missing" || first[0] === "text");
}
