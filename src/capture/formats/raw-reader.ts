// Reads raw interleaved numbers whose layout the user states.

import type { Capture } from "../model/capture.ts";
import { layoutOf } from "../model/layout.ts";
import type { ByteSource, ReadChoices, Reader, ReadReport } from "../model/reader.ts";
import { noTime } from "../model/refusals.ts";
import { RemarkBook } from "../model/remarks.ts";
import type { Numbers } from "../time/recorded.ts";
import { readFrames } from "./frames.ts";

export const rawReader: Reader = { name: "raw numbers", recognises: () => false, read };

/** @throws ProblemError "bad-layout", "no-time" without a rate, "too-few-rows" */
async function read(source: ByteSource, choices: ReadChoices, report: ReadReport): Promise<Capture> {
  const layout = layoutOf(choices.layout ?? "");
  const rate = choices.rate ?? layout.rate;
  if (rate === null) throw noTime(source.name, 1);
  const remarks = new RemarkBook();
  const rest = (source.size - layout.skip) % (layout.bytes * layout.channels);
  if (rest > 0)
    remarks.tally("bytes at the end that fill no row were left out", `byte ${source.size - rest + 1}`, rest);
  const time = { rate };
  const kind = { name: source.name, format: `raw numbers, ${choices.layout}`, isRowLog: false } as const;
  const recording = (columns: readonly Numbers[]) => ({
    ...kind,
    rowsAreSimultaneous: true,
    hasZone: false,
    columns: columns.map((numbers, i) => {
      const name = layout.names[i] ?? `Channel ${i + 1}`;
      return { id: `c${i + 1}`, name, header: name, fileUnit: layout.unit, ...numbers, time };
    }),
  });
  return readFrames({ source, frames: layout, range: [layout.skip, source.size], recording }, choices, report, remarks);
}
