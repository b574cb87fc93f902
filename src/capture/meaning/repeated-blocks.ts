// Blocks of rows that stand twice: the recorder wrote a part of its memory again, and the second copy is no recording.

import type { RemarkBook } from "../model/remarks.ts";
import type { Recorded } from "../time/recorded.ts";

/** So many rows that repeat others in the same order, most of them different from each other, are no chance. Own choice. */
const least = { rows: 10, different: 6, columns: 2 };
/** In a signal that repeats itself by nature more of it would be found twice. */
const mostShare = 0.4;
/** More single rows than this share that equal an earlier one by chance: values so coarse, or so much in step, prove no block. */
const mostByChance = 0.05;
/** An hour at five rows a second; longer files come from recorders of another kind, and are read in parts. */
const mostRows = 20_000;

interface Block {
  /** First row and the one behind the last, of the second copy; its first copy lies so many rows before. */
  readonly from: number;
  readonly to: number;
  readonly lag: number;
}

/** The columns with second copies taken out (NaN), which is said. All columns must move, or they are no witnesses. */
export function withoutRepeatedBlocks(columns: readonly Recorded[], remarks: RemarkBook): readonly Recorded[] {
  const rows = columns[0]?.values.length ?? 0;
  const isOneTable = columns.every(({ values, time }) => values.length === rows && time === columns[0]!.time);
  if (!isOneTable || rows > mostRows || columns.filter(({ values }) => moves(values)).length < least.columns)
    return columns;
  const { blocks, equalRows } = blocksIn(columns, rows);
  const repeated = blocks.reduce((sum, { from, to }) => sum + to - from, 0);
  if (repeated === 0 || repeated > mostShare * rows || equalRows - repeated > mostByChance * rows) return columns;
  for (const { from, to, lag } of blocks)
    remarks.tally(
      `repeat rows ${from - lag + 1} to ${to - lag} in every column: a block that was written twice, and nothing is judged by the second`,
      `data rows ${from + 1} to ${to}`,
      to - from,
    );
  const time = withoutStamps(columns[0]!.time, blocks);
  return columns.map((column) => {
    const values = column.values.slice();
    for (const { from, to } of blocks) values.fill(Number.NaN, from, to);
    return { ...column, values, time, isFull: false };
  });
}

/** Stamps that were written twice with their rows are none either, and are told of already: the clock did not start again. */
function withoutStamps(time: Recorded["time"], blocks: readonly Block[]): Recorded["time"] {
  if ("rate" in time) return time;
  const seconds = time.seconds.slice();
  let told = 0;
  for (const { from, to, lag } of blocks) {
    if (!seconds.subarray(from, to).every((second, k) => second === time.seconds[from + k - lag])) continue;
    seconds.fill(Number.NaN, from, to);
    told += to - from;
  }
  return told === 0 ? time : { ...time, seconds, told };
}

/** Runs of rows that equal those a constant number of rows before; and how many rows do, in runs of any length. */
function blocksIn(
  columns: readonly Recorded[],
  rows: number,
): { readonly blocks: Block[]; readonly equalRows: number } {
  const keys = Int32Array.from({ length: rows }, (_, row) => keyOf(columns, row));
  const latest = new Map<number, number>();
  const blocks: Block[] = [];
  let [from, lag, equalRows] = [0, 0, 0];
  const close = (to: number) => {
    equalRows += to - from;
    const different = new Set(keys.subarray(from, to)).size;
    if (lag >= to - from && to - from >= least.rows && different >= least.different) blocks.push({ from, to, lag });
  };
  for (let row = 0; row < rows; row++) {
    if (lag > 0 && isSame(columns, row, row - lag)) {
      latest.set(keys[row]!, row);
      continue;
    }
    if (lag > 0) close(row);
    const before = latest.get(keys[row]!);
    lag = before !== undefined && row - before > 1 && isSame(columns, row, before) ? row - before : 0;
    from = row;
    latest.set(keys[row]!, row);
  }
  if (lag > 0) close(rows);
  return { blocks, equalRows };
}

/** FNV-1a over the values as single-precision bits. Source: Fowler, Noll, Vo, draft-eastlake-fnv. */
function keyOf(columns: readonly Recorded[], row: number): number {
  let key = 0x811c9dc5 | 0;
  for (const { values } of columns) {
    single[0] = values[row]!;
    key = Math.imul(key ^ bits[0]!, 0x01000193);
  }
  return key;
}
const single = new Float32Array(1);
const bits = new Int32Array(single.buffer);

function isSame(columns: readonly Recorded[], row: number, other: number): boolean {
  return columns.every(({ values }) => Object.is(values[row], values[other]));
}

function moves(values: Recorded["values"]): boolean {
  let changes = 0;
  for (let i = 1; i < values.length && changes < least.rows; i++) if (values[i] !== values[i - 1]) changes++;
  return changes >= least.rows;
}
