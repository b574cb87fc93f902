// All dimensions of a job as CSV (RFC 4180), for a spreadsheet.

import { csvCell } from "../../capture/writing/write-csv.ts";
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

function cell(value: string | number | null): string {
  return typeof value === "string" ? csvCell(value) : String(value ?? "");
}
