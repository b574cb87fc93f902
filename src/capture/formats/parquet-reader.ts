// Reads Parquet; the decoder is loaded only when a file needs it.

import { filledCapture } from "../growing/growth.ts";
import type { Capture } from "../model/capture.ts";
import type { ByteSource, ReadChoices, Reader, ReadReport } from "../model/reader.ts";
import { noNumbers, tooFewRows } from "../model/refusals.ts";
import { RemarkBook } from "../model/remarks.ts";
import type { Numbers } from "../time/recorded.ts";
import { numberRecording } from "./number-table.ts";

export const parquetReader: Reader = { name: "Parquet", recognises, read };

function recognises(head: Uint8Array): boolean {
  return String.fromCharCode(...head.subarray(0, 4)) === "PAR1";
}

const mostCells = 400_000_000;
/** Where storage may take what memory cannot. */
const mostCellsInParts = 10 * mostCells;

async function read(source: ByteSource, choices: ReadChoices, report: ReadReport): Promise<Capture> {
  const remarks = new RemarkBook();
  const { ParquetRows } = await import("./parquet-rows.ts");
  const rows = await ParquetRows.of(source, report.parts ? mostCellsInParts : mostCells);
  const { gathered, rowsInAll, stride } = rows;
  if (rowsInAll < 2) throw tooFewRows(source.name, rowsInAll);
  const file = { name: source.name, format: "Parquet" };
  let planned: { readonly columns: number; readonly recording: ReturnType<typeof numberRecording> } | null = null;
  const recording = (all: readonly Numbers[]) => {
    const held = gathered.map((column, i) => ({ ...column, ...all[i]! })).filter(({ hasValue }) => hasValue);
    if (held.length === 0) throw noNumbers(source.name);
    // A column without a number so far may hold some further down.
    if (planned?.columns !== held.length)
      planned = { columns: held.length, recording: numberRecording(file, held, choices, remarks) };
    return planned.recording(held);
  };
  const next = async () => {
    const done = await rows.next();
    const left = gathered.filter(({ hasValue }) => !hasValue).map(({ header }) => header);
    if (done === null && left.length > 0)
      remarks.tally(`left out as they hold no numbers: ${left.join(", ")}`, undefined, left.length);
    return done;
  };
  const columns = gathered.map(({ column }) => column);
  return filledCapture({ source, columns, rowsInAll, stride, recording, next }, choices, report, remarks);
}
