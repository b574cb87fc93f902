// What was measured, as rows of tables: every reading of the recording judged, and every difference of two recordings.

import type { Comparison } from "../../exhaust/comparing/comparison.ts";
import type { Analysis } from "../../exhaust/terms/analysis.ts";
import type { Reading } from "../../signal/numbers/reading.ts";

export type Row = readonly string[];

export const readingsHead: Row = ["reading", "from s", "to s", "value", "low", "high", "unit", "grade", "because"];

/** Store, sensors, stretches and lift-offs, in the units they are stored in; an empty cell where a bound is open. */
export function readingRows(analysis: Analysis | null): Row[] {
  if (!analysis) return [];
  const { store, sensors, whole, stretches, liftOffs, liftOff } = analysis;
  return [
    ...rowsOf("", { store }),
    ...rowsOf("front", sensors.front),
    ...rowsOf("rear", sensors.rear),
    ...rowsOf("whole", whole),
    ...stretches.flatMap(({ kind, from, to, activity }) => rowsOf(kind, activity, [from, to])),
    ...rowsOf("over all lift-offs", liftOff),
    ...liftOffs.flatMap(({ id, at, delay, storedOxygen }) =>
      rowsOf(`lift-off ${id}`, { delay, storedOxygen }, [at, at]),
    ),
  ];
}

export const differencesHead: Row = [
  ...["reading", "before", "before low", "before high", "after", "after low", "after high", "unit"],
  ...["after over before", "told"],
];

/** The recording before the repair is the reference, the one after it the suspect. */
export const differenceRows = (comparison: Comparison | null): Row[] =>
  (comparison?.differences ?? []).map(({ label, suspect, reference, ratio, told }) => [
    label,
    ...numbers(reference),
    ...numbers(suspect),
    reference.unit,
    cell(ratio.value),
    told,
  ]);

function rowsOf(group: string, fields: object | null, span?: readonly [number, number]): Row[] {
  return Object.entries(fields ?? {}).flatMap(([name, value]) => {
    if (!isReading(value)) return [];
    const named = group === "" ? name : `${group}: ${name}`;
    const [from, to] = span ?? [null, null];
    return [[named, cell(from), cell(to), ...numbers(value), value.unit, value.grade, value.because ?? ""]];
  });
}

const isReading = (value: unknown): value is Reading =>
  typeof value === "object" && value !== null && "grade" in value && "unit" in value;

const numbers = ({ value, low, high }: Reading): Row => [value, low, high].map(cell);

/** To six digits, which no value here claims more of. */
export const cell = (value: number | null): string => (value === null ? "" : `${Number(value.toPrecision(6))}`);
