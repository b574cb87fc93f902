// Measures one recording: npm run --silent measure -- FILE [options]. See arguments.ts for the words it takes.

import { type Call, measureUsage, readArguments } from "./arguments.ts";
import { measureFile, runCommand } from "./run.ts";

async function answer(call: Call): Promise<string> {
  const { capture, analysis } = await measureFile(call.files[0]!, call);
  if (!call.json) return (await import("./table.ts")).table(capture, analysis);
  return JSON.stringify((await import("./answer.ts")).answerOf(capture, analysis), null, 2);
}

await runCommand("measure", measureUsage, () => {
  const call = readArguments(process.argv.slice(2), ["file"]);
  return call && answer(call);
});
