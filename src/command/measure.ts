// Measures one recording: npm run --silent measure -- FILE [options]. See arguments.ts for the words it takes.

import { type Problem, ProblemError } from "../problem.ts";
import { type MeasureCall, readArguments, usage, WrongCall } from "./arguments.ts";

async function run(argv: readonly string[]): Promise<number> {
  try {
    const call = readArguments(argv);
    process.stdout.write(`${call ? await answer(call) : usage}\n`);
    return 0;
  } catch (error) {
    return explain(error);
  }
}

/** What is only needed for a good call is loaded only then: help and mistakes answer at once. */
async function answer(call: MeasureCall): Promise<string> {
  const [{ openFile }, { readCapture }, { analyse }] = await Promise.all([
    import("./file-source.ts"),
    import("../capture/readers.ts"),
    import("../exhaust/analyse.ts"),
  ]);
  const file = await openFile(call.file);
  try {
    const report = { progress: () => {}, signal: new AbortController().signal };
    const capture = await readCapture(file, call.choices, report);
    const analysis = analyse(capture, call.bank ? { bank: call.bank } : {});
    if (!call.json) return (await import("./table.ts")).table(capture, analysis);
    return JSON.stringify((await import("./answer.ts")).answerOf(capture, analysis), null, 2);
  } finally {
    await file.close();
  }
}

/** Says on standard error what went wrong; answers the exit code. */
function explain(error: unknown): number {
  if (error instanceof WrongCall) {
    console.error(`${error.message}\nnpm run --silent measure -- --help shows how it is called.`);
    return 2;
  }
  if (error instanceof ProblemError) {
    console.error(inLines(error.problem));
    return error.problem.code === "wrong-choice" ? 2 : 1;
  }
  const message = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  console.error(`This is a fault of the program, not of the file: ${message.replaceAll("\n", " ")}`);
  return 3;
}

/** Options that mend a problem, where the reader cannot know that it is called from here. */
const option: Readonly<Partial<Record<Problem["code"], string>>> = {
  "no-time": "--rate HZ",
  "bad-layout": '--layout "f32le channels=2 rate=1000"',
};

function inLines({ code, what, where, remedy }: Problem): string {
  const hint = option[code];
  const help = hint && !remedy.includes(hint.split(" ")[0]!) ? `${remedy} Here: ${hint}.` : remedy;
  return `${where ? `${where}: ` : ""}${what}\n${help}`;
}

// A reader that hangs up early, "measure … | head", is no fault.
process.stdout.on("error", (error: NodeJS.ErrnoException) => process.exit(error.code === "EPIPE" ? 0 : 3));
process.exitCode = await run(process.argv.slice(2));
