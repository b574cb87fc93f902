// Reads raw interleaved numbers whose layout the user states.

import { assemble } from "./assemble.ts";
import type { Capture } from "./capture.ts";
import { readFrames } from "./frames.ts";
import { layoutOf } from "./layout.ts";
import type { ByteSource, ReadChoices, Reader, ReadReport } from "./reader.ts";
import { noTime, tooFewRows } from "./refusals.ts";
import { RemarkBook } from "./remarks.ts";

export const rawReader: Reader = { name: "raw numbers", recognises: () => false, read };

/** @throws ProblemError "bad-layout", "no-time" without a rate, "too-few-rows" */
async function read(source: ByteSource, choices: ReadChoices, report: ReadReport): Promise<Capture> {
  const layout = layoutOf(choices.layout ?? "");
  const rate = choices.rate ?? layout.rate;
  if (rate === null) throw noTime(source.name, 1);
  const columns = await readFrames(source, layout, [layout.skip, source.size], report);
  const rows = columns[0]!.length;
  if (rows < 2) throw tooFewRows(source.name, rows);
  const remarks = new RemarkBook();
  const rest = (source.size - layout.skip) % (layout.bytes * layout.channels);
  if (rest > 0)
    remarks.tally("bytes at the end that fill no row were left out", `byte ${source.size - rest + 1}`, rest);
  const time = { rate };
  const recorded = columns.map((column, i) => {
    const name = layout.names[i] ?? `Channel ${i + 1}`;
    return { id: `c${i + 1}`, name, header: name, fileUnit: layout.unit, values: column.finish(), time };
  });
  const file = { name: source.name, format: `raw numbers, ${choices.layout}` };
  return assemble(
    { ...file, isRowLog: false, rowsAreSimultaneous: true, hasZone: false, columns: recorded },
    choices,
    remarks,
  );
}
