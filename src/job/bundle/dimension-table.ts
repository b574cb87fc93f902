// All dimensions of a job as CSV (RFC 4180), for a spreadsheet.

import type { Job } from "../record/job.ts";

const head = ["recording", "label", "kind", "from_s", "to_s", "value", "low", "high", "unit", "grade"];

/** One row per dimension, CRLF line ends, an empty cell where a bound is open. */
export function dimensionTable(job: Job): string {
  const rows = job.captures.flatMap(({ fileName, bench }) =>
    bench.dimensions.map(({ label, kind, from, to, reading }) => [
      fileName,
      label,
      kind,
      from.time,
      to.time,
      reading.value,
      reading.low,
      reading.high,
      reading.unit,
      reading.grade,
    ]),
  );
  return [head, ...rows].map((row) => `${row.map(cell).join(",")}\r\n`).join("");
}

/** Text that a spreadsheet would take for a formula gets an apostrophe in front. */
function cell(value: string | number | null): string {
  if (value === null) return "";
  if (typeof value === "number") return String(value);
  const safe = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
