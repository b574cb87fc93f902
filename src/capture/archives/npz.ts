// NumPy's .npz: arrays beside each other, one of them the time, or a rate or step as a single number.

import { piecesSource } from "../bytes/sources.ts";
import { NpyRows } from "../formats/npy-rows.ts";
import { type NumberColumn, numberTable } from "../formats/number-table.ts";
import type { Capture } from "../model/capture.ts";
import type { ByteSource, ReadChoices } from "../model/reader.ts";
import { type Unpacking, unpack } from "./unpack.ts";
import { type Member, packedMember } from "./zip.ts";

export async function npzCapture(
  source: ByteSource,
  members: readonly Member[],
  choices: ReadChoices,
  unpacking: Unpacking,
): Promise<Capture> {
  const { remarks } = unpacking;
  const columns: NumberColumn[] = [];
  for (const member of members.slice(0, 500)) {
    const name = member.name.replace(/\.npy$/, "");
    const pieces = await unpack(await packedMember(source, member), unpacking);
    const rows = await NpyRows.of(piecesSource(pieces, member.name), remarks, name);
    for (const column of rows.columns) column.reserve(rows.rowsInAll);
    while ((await rows.next()) !== null);
    columns.push(...rows.columns.map((column, i) => ({ header: rows.headers[i]!, values: column.finish() })));
  }
  const rate = choices.rate ?? statedRate(columns);
  const longest = Math.max(0, ...columns.map(({ values }) => values.length));
  const equal = columns.filter(({ values }) => values.length === longest);
  const left = columns.filter(({ values }) => values.length !== longest && values.length > 1);
  if (left.length > 0)
    remarks.tally(
      `arrays of another length were left out: ${left.map(({ header }) => header).join(", ")}`,
      undefined,
      left.length,
    );
  return numberTable(
    { name: source.name, format: "NumPy arrays" },
    equal,
    rate === undefined ? choices : { ...choices, rate },
    remarks,
  );
}

/** A single number named as a rate or a step. */
function statedRate(columns: readonly NumberColumn[]): number | undefined {
  const single = columns.filter(({ values }) => values.length === 1);
  const rate = single.find(({ header }) => /^(fs|rate|sample_?rate|sampling_?rate|frequency|sr|f_s)$/i.test(header))
    ?.values[0];
  const step = single.find(({ header }) => /^(dt|step|interval|period|sample_?interval|delta_?t)$/i.test(header))
    ?.values[0];
  const found = rate ?? (step ? 1 / step : undefined);
  return found !== undefined && Number.isFinite(found) && found > 0 ? found : undefined;
}
