// Measures the files of a survey that it is asked for, one after the other; ends with the process that asks.

import { ProblemError } from "../problem.ts";
import { measureFile } from "./run.ts";
import type { Asked } from "./survey/pool.ts";
import { brokenRow, measuredRow, type Row } from "./survey/rows.ts";

async function rowOf({ file, path, bytes }: Asked): Promise<Row> {
  try {
    return measuredRow(file, bytes, await measureFile(path, { files: [path], json: false, choices: {}, about: {} }));
  } catch (error) {
    if (error instanceof ProblemError) return brokenRow(file, bytes, error.problem);
    return brokenRow(file, bytes, { code: "fault", what: String(error).split("\n")[0]! });
  }
}

process.on("message", async (asked: Asked) => {
  process.send?.(await rowOf(asked));
});
