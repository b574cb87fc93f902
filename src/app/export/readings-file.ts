// Readings as files: one row or one object each, with bounds, grade and reason.

import type { SpanReadings, WholeReadings } from "../../../workers/protocol.ts";
import { csvRow } from "../../capture/writing/write-csv.ts";
import type { Reading } from "../../signal/numbers/reading.ts";

/** RFC 4180; an empty cell where a bound is open or a value cannot be said. */
export function readingsCsv(inSpan: SpanReadings, whole: WholeReadings | null): string {
  const head = csvRow(["reading", "from_s", "to_s", "value", "low", "high", "unit", "grade", "because"]);
  const { from, to } = inSpan.span;
  const rows = [
    ...namedReadings(inSpan).map(([name, reading]) => ({ name, reading, from, to })),
    ...liftOffRows(whole),
  ];
  return head + rows.map(({ name, reading, from, to }) => readingRow(name, reading, [from, to])).join("");
}

export function readingsJson(
  { span, sensors, activity, levels = [] }: SpanReadings,
  whole: WholeReadings | null,
): string {
  return JSON.stringify(
    { span, sensors, activity, channels: levels, liftOffs: whole?.liftOffs ?? [], liftOff: whole?.liftOff ?? null },
    null,
    2,
  );
}

function namedReadings({ sensors, activity, levels = [] }: SpanReadings): readonly (readonly [string, Reading])[] {
  const channels = levels.map(({ channelId, ...readings }) => [`channel ${channelId}`, readings] as const);
  const groups = { front: sensors.front, rear: sensors.rear, activity, ...Object.fromEntries(channels) };
  return Object.entries(groups).flatMap(([group, readings]) =>
    Object.entries(readings ?? {}).map(([name, reading]) => [`${group}.${name}`, reading as Reading] as const),
  );
}

function liftOffRows(whole: WholeReadings | null) {
  return (whole?.liftOffs ?? []).flatMap(({ id, at, delay, storedOxygen }) =>
    Object.entries({ delay, storedOxygen }).map(([name, reading]) => ({
      name: `liftOff ${id}.${name}`,
      reading,
      from: at,
      to: at,
    })),
  );
}

function readingRow(name: string, reading: Reading, [from, to]: readonly [number, number]): string {
  const { value, low, high, unit, grade, because = "" } = reading;
  const numbers = [from, to, value, low, high].map((n) => (n === null ? "" : String(n)));
  const [texts, words] = [csvRow([name]).trimEnd(), csvRow([unit, grade, because])];
  return `${texts},${numbers.join(",")},${words}`;
}
