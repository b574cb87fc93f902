// Compares two recordings: npm run --silent compare -- SUSPECT REFERENCE [options], with the options of measure.

import { type Call, compareUsage, readArguments } from "./arguments.ts";
import { measureFile, runCommand } from "./run.ts";

async function answer(call: Call): Promise<string> {
  const [{ comparableOf }, { compareRecordings }] = await Promise.all([
    import("../exhaust/comparing/comparable.ts"),
    import("../exhaust/comparing/compare.ts"),
  ]);
  const comparable = async (path: string) => {
    const { capture, analysis, recall } = await measureFile(path, call, true);
    return comparableOf(capture, analysis, {}, recall);
  };
  const [suspect, reference] = [await comparable(call.files[0]!), await comparable(call.files[1]!)];
  const comparison = compareRecordings(suspect, reference);
  if (call.json) return JSON.stringify(comparison, null, 2);
  return (await import("./compare-table.ts")).compareTable(comparison);
}

await runCommand("compare", compareUsage, () => {
  const call = readArguments(process.argv.slice(2), ["suspect", "reference"]);
  return call && answer(call);
});
