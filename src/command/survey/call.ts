// The words of a survey's call.

import { parseArgs } from "node:util";
import { WrongCall } from "../arguments.ts";
import type { Shard } from "./files.ts";

export const surveyUsage = `Usage: npm run --silent survey -- FOLDER [--out FILE.csv|FILE.parquet] [--shard I/N]

Measures every recording below a folder, one row each; a file that cannot be read is a row with its reason.

  --out FILE     CSV or Parquet, by its ending; without it CSV goes to standard output
  --shard I/N    only the I-th of N parts, for several machines: each file belongs to one part, whatever else
                 is in the folder. The parts' tables are read together by any engine that reads Parquet or CSV

Stopped and called again, a survey with --out goes on where it was.
Exit: 0 done, 1 the folder could not be read or the table not written, 2 wrong call, 3 a fault of this program.`;

export interface SurveyCall {
  readonly folder: string;
  readonly out: string | null;
  readonly shard: Shard;
}

const options = {
  out: { type: "string" },
  shard: { type: "string" },
  help: { type: "boolean", short: "h" },
} as const;

/**
 * @returns null when only help was asked for.
 * @throws WrongCall with one line that says what is wrong.
 */
export function readSurveyCall(argv: readonly string[]): SurveyCall | null {
  const { values, positionals } = parsed(argv);
  if (values.help) return null;
  const [folder, ...more] = positionals;
  if (!folder) throw new WrongCall("Which folder? Name the one that the recordings are in.");
  if (more.length > 0) throw new WrongCall(`One folder at a time, please: got ${positionals.join(", ")}.`);
  const { out = null } = values;
  if (out !== null && !/\.(csv|parquet)$/i.test(out))
    throw new WrongCall(`--out wants a name that ends in .csv or .parquet, got "${out}".`);
  return { folder, out, shard: shardOf(values.shard) };
}

function parsed(argv: readonly string[]) {
  try {
    return parseArgs({ args: [...argv], options, allowPositionals: true });
  } catch (error) {
    throw new WrongCall((error as Error).message.split("\n")[0]!.split(". ")[0]!);
  }
}

function shardOf(text: string | undefined): Shard {
  if (text === undefined) return { part: 1, of: 1 };
  const [, part, of] = /^(\d+)\/(\d+)$/.exec(text)?.map(Number) ?? [];
  if (!part || !of || part > of) throw new WrongCall(`--shard wants I/N with I from 1 to N, as 2/8, got "${text}".`);
  return { part, of };
}
