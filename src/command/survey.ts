// Measures every recording below a folder: npm run --silent survey -- FOLDER [options]. See survey/call.ts for its words.

import { resolve } from "node:path";
import { runCommand } from "./run.ts";
import { readSurveyCall, type SurveyCall, surveyUsage } from "./survey/call.ts";
import { type FoundFile, filesBelow } from "./survey/files.ts";
import { Journal, journalOf } from "./survey/journal.ts";
import { measureAll } from "./survey/pool.ts";
import { Progress } from "./survey/progress.ts";
import type { Row } from "./survey/rows.ts";
import { csvOf, notWritten, writeTable } from "./survey/write.ts";

/** Places are meant from where the user called. */
const from = (place: string): string => resolve(process.env.INIT_CWD ?? process.cwd(), place);

async function survey(call: SurveyCall): Promise<string> {
  const out = call.out === null ? null : from(call.out);
  const files = await filesBelow(from(call.folder), call.shard, out === null ? [] : [out, journalOf(out)]);
  const journal = out === null ? null : await begun(out);
  const rows = await rowsOf(files, journal);
  if (out === null || journal === null) return csvOf(rows).trimEnd();
  await writeTable(out, rows);
  await journal.done();
  const broken = rows.filter(({ status }) => status !== "measured").length;
  return `${rows.length} files: ${rows.length - broken} measured, ${broken} not read. ${out}`;
}

async function begun(out: string): Promise<Journal> {
  const journal = new Journal(out, process.env.TRACEWRIGHT_SOURCES ?? "sources");
  await journal.begin().catch((error: NodeJS.ErrnoException) => {
    throw notWritten(out, error);
  });
  return journal;
}

/** In the order of the files. */
async function rowsOf(files: readonly FoundFile[], journal: Journal | null): Promise<Row[]> {
  const rows = new Map<string, Row>();
  for (const file of files) {
    const known = journal?.rowOf(file);
    if (known) rows.set(file.file, known);
  }
  const progress = new Progress(files.length, rows.size);
  await measureAll(
    files.filter(({ file }) => !rows.has(file)),
    async (file, row) => {
      rows.set(file.file, row);
      await journal?.keep(file, row);
      progress.step(row.status !== "measured");
    },
  );
  progress.end();
  return files.map(({ file }) => rows.get(file)!);
}

await runCommand("survey", surveyUsage, () => {
  const call = readSurveyCall(process.argv.slice(2));
  return call && survey(call);
});
