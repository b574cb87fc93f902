// Measures one recording: npm run --silent measure -- FILE [options]. See arguments.ts for the words it takes.

import type { Capture } from "../capture/model/capture.ts";
import type { Analysis } from "../exhaust/terms/analysis.ts";
import { type Call, measureUsage, readArguments } from "./arguments.ts";
import { measureFile, runCommand } from "./run.ts";

async function answer(call: Call): Promise<string> {
  const { capture, analysis } = await measureFile(call.files[0]!, call, true);
  const others = call.about.bank ? [] : await otherBanks(capture, analysis, call);
  if (!call.json) return (await import("./table.ts")).table(capture, analysis, others);
  return JSON.stringify((await import("./answer.ts")).answerOf(capture, analysis, others), null, 2);
}

/** Every bank of the file is judged, each by itself. */
async function otherBanks(capture: Capture, { bank }: Analysis, { about }: Call): Promise<Analysis[]> {
  const [{ analyse }, { banksIn }] = await Promise.all([
    import("../exhaust/analyse.ts"),
    import("../exhaust/terms/channels.ts"),
  ]);
  return banksIn(capture)
    .filter((other) => other !== bank)
    .map((other) => analyse(capture, { ...about, bank: other }));
}

await runCommand("measure", measureUsage, () => {
  const call = readArguments(process.argv.slice(2), ["file"]);
  return call && answer(call);
});
