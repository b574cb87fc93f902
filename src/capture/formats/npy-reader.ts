// Reads one NumPy array: a structured one by its field names, a matrix as channels beside each other, a vector as one channel.

import { filledCapture } from "../growing/growth.ts";
import type { Capture } from "../model/capture.ts";
import type { ByteSource, ReadChoices, Reader, ReadReport } from "../model/reader.ts";
import { tooFewRows } from "../model/refusals.ts";
import { RemarkBook } from "../model/remarks.ts";
import type { Numbers, Recording } from "../time/recorded.ts";
import { isNpy } from "./npy.ts";
import { NpyRows } from "./npy-rows.ts";
import { numberRecording } from "./number-table.ts";

export const npyReader: Reader = { name: "NumPy array", recognises: isNpy, read };

async function read(source: ByteSource, choices: ReadChoices, report: ReadReport): Promise<Capture> {
  const remarks = new RemarkBook();
  const rows = await NpyRows.of(source, remarks);
  if (rows.columns.length === 0 || rows.rowsInAll < 2) throw tooFewRows(source.name, rows.rowsInAll);
  const file = { name: source.name, format: "NumPy array" };
  let made: ((numbers: readonly Numbers[]) => Recording) | null = null;
  const recording = (numbers: readonly Numbers[]) => {
    const columns = numbers.map(({ values }, i) => ({ header: rows.headers[i]!, values }));
    made ??= numberRecording(file, columns, choices, remarks);
    return made(numbers);
  };
  const { columns, rowsInAll, stride } = rows;
  try {
    const filling = { source, columns, rowsInAll, stride, recording, next: () => rows.next() };
    return await filledCapture(filling, choices, report, remarks);
  } finally {
    rows.close();
  }
}
