// A row of factors among the header rows: whether the numbers are still to be multiplied by it, which their own size tells.

import { conversionOf, toCanonical } from "../meaning/quantities.ts";
import { roleNamedBy } from "../meaning/roles.ts";
import type { Remark, Role } from "../model/capture.ts";
import { listed } from "../model/remarks.ts";
import type { HeadColumn } from "./head-columns.ts";
import { type DecimalMark, numberIn } from "./numbers.ts";

/** A value is what is written, times the one, plus the other. */
export interface Factor {
  readonly times: number;
  readonly plus: number;
}

export interface Factors {
  /** By column; null where the numbers stand as they are. */
  readonly byColumn: readonly (Factor | null)[];
  /** Rows that were understood as factors, applied or not. */
  readonly rows: readonly (readonly string[])[];
  readonly remarks: readonly Remark[];
}

const saysTimes = /^(factors?|faktor(en)?|facteurs?|fattor[ei]|scal(e|ing)|skalierung|gain|mult\w*|slope)\b/i;
const saysPlus = /^(offsets?|versatz|decalage|décalage|intercept)\b/i;

/**
 * What a quantity reads at its highest, on any car that runs, in its own unit: most of the time at least the one, at most the other.
 * From memory, and wide.
 */
const highest: Readonly<Partial<Record<Role, readonly [least: number, most: number]>>> = {
  "front-o2": [0.3, 1.4],
  "rear-o2": [0.3, 1.4],
  "front-lambda": [0.7, 4],
  "engine-speed": [450, 9000],
  throttle: [3, 101],
  "road-speed": [0, 300],
  "air-flow": [1, 500],
  "short-trim": [-50, 60],
  "long-trim": [-50, 60],
  "coolant-temp": [-40, 140],
  "manifold-pressure": [20, 350],
};

/**
 * @param between  rows between names and numbers that are no units.
 * @param columns  as the first rows show them.
 */
export function factorsIn(
  between: readonly (readonly string[])[],
  columns: readonly HeadColumn[],
  mark: DecimalMark,
): Factors {
  const times = between.find((row) => isNumbers(row, columns, mark) && saysTimes.test(labelOf(row)));
  const plus = between.find((row) => isNumbers(row, columns, mark) && saysPlus.test(labelOf(row)));
  const bare =
    between.length === 1 ? between.find((row) => isNumbers(row, columns, mark) && !hasWord(row, mark)) : null;
  const row = times ?? bare ?? plus;
  const none: Factors = { byColumn: columns.map(() => null), rows: [], remarks: [] };
  if (!row) return none;
  const all = columns.map((_, i) => factorAt(i, times ?? bare, plus, mark));
  if (all.every((factor) => factor === null)) return none;
  const { better, worse } = evidenceFor(all, columns);
  const isToApply = better > 0 && worse === 0;
  if (!isToApply && row === bare) return none; // numbers without a word may be anything
  const label = hasWord(row, mark) ? labelOf(row) : "the numbers above the units";
  const text = isToApply ? applied(label, all, columns) : left(label, better === 0 && worse > 0);
  return {
    byColumn: isToApply ? all : none.byColumn,
    rows: [times, plus, bare].filter((one) => one !== undefined && one !== null),
    remarks: [{ text }],
  };
}

const labelOf = (row: readonly string[]): string => row[0]!.replace(/^[#%/!\s]+/, "").replace(/[\s:=]+$/, "");
const hasWord = (row: readonly string[], mark: DecimalMark): boolean => Number.isNaN(numberIn(row[0] ?? "", mark));

/** A number below nearly every name, but perhaps the first. */
function isNumbers(row: readonly string[], columns: readonly HeadColumn[], mark: DecimalMark): boolean {
  const cells = row.slice(1, columns.length);
  const numbers = cells.filter((cell) => Number.isFinite(numberIn(cell, mark))).length;
  const isOther = cells.some((cell) => cell.trim() !== "" && Number.isNaN(numberIn(cell, mark)));
  return !isOther && numbers * 2 > columns.length - 1;
}

/** Null where it changes nothing. */
function factorAt(
  i: number,
  times: readonly string[] | undefined | null,
  plus: readonly string[] | undefined,
  mark: DecimalMark,
): Factor | null {
  const at = (row: readonly string[] | undefined | null, usual: number) => {
    const written = numberIn(row?.[i] ?? "", mark);
    return Number.isNaN(written) ? usual : written;
  };
  const factor = { times: at(times, 1), plus: at(plus, 0) };
  return factor.times === 1 && factor.plus === 0 ? null : factor;
}

/** How many columns can only be read with the factor (a sensor may rest at 0, but none gives 160 V), and how many only without. */
function evidenceFor(factors: readonly (Factor | null)[], columns: readonly HeadColumn[]) {
  let [better, worse] = [0, 0];
  columns.forEach(({ title, cells, mark }, i) => {
    const factor = factors[i];
    const { role } = roleNamedBy(title.name, title.fileUnit);
    const range = highest[role];
    const { known } = conversionOf(title.fileUnit);
    if (!factor || !range || !known) return;
    const written = cells.map((cell) => numberIn(cell, mark)).filter(Number.isFinite);
    if (written.length === 0) return;
    const high = written.sort((a, b) => a - b)[Math.floor(0.95 * (written.length - 1))]!;
    const read = (value: number) => toCanonical(value, conversionOf(title.fileUnit));
    const isIn = (value: number, least: number) => value >= least && value <= range[1];
    const [asWritten, withFactor] = [read(high), read(high * factor.times + factor.plus)];
    const isUsual = isIn(withFactor, range[0]);
    if (isUsual && !isIn(asWritten, Math.min(0, range[0]))) better++;
    if (!isUsual && isIn(asWritten, range[0])) worse++;
  });
  return { better, worse };
}

function applied(label: string, factors: readonly (Factor | null)[], columns: readonly HeadColumn[]): string {
  const names = columns.filter((_, i) => factors[i]).map(({ title }) => title.name);
  return `the numbers only make sense times the factors that stand below the names (${label}), and were multiplied: ${listed(names)}`;
}

const left = (label: string, isDone: boolean): string =>
  isDone
    ? `factors stand below the names (${label}); the numbers make sense without them, and were left as they are`
    : `factors stand below the names (${label}); the numbers do not tell whether they are multiplied already, and were left as they are: look at them, and multiply them in the file where they are not`;
