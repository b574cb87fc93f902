// How every command runs: its answer to standard output, what is wrong to standard error, and the exit code that says which.

import type { Capture } from "../capture/model/capture.ts";
import type { Analysis } from "../exhaust/terms/analysis.ts";
import type { Recall } from "../exhaust/terms/remembered.ts";
import { type Problem, ProblemError } from "../problem.ts";
import { type Call, WrongCall } from "./arguments.ts";

/** @param answer null where only help was asked for: `usage` is printed. */
export async function runCommand(name: string, usage: string, answer: () => Promise<string> | null): Promise<void> {
  // A reader that hangs up early, "measure … | head", is no fault.
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") console.error(`The answer could not be written: ${error.message}`);
    process.exit(error.code === "EPIPE" ? 0 : 3);
  });
  try {
    process.stdout.write(`${withPlainSpaces((await answer()) ?? usage)}\n`);
    process.exitCode = 0;
  } catch (error) {
    process.exitCode = explain(error, name);
  }
}

/** Spaces that must not break a line on a page only hinder whoever searches a text. */
const withPlainSpaces = (text: string): string => text.replace(/[\u00a0\u202f]/g, " ");

export interface MeasuredFile {
  readonly capture: Capture;
  readonly analysis: Analysis;
  /** What was measured for the analysis, remembered. */
  readonly recall: Recall;
}

/**
 * What is only needed for a good call is loaded only then: help and mistakes answer at once.
 *
 * @param isAlone  nothing else runs: a second core may be used.
 */
export async function measureFile(path: string, { choices, about }: Call, isAlone = false): Promise<MeasuredFile> {
  const [{ openFile }, { readCapture }, { analyseOnTwo, storeThread }, { remembering }] = await Promise.all([
    import("./file-source.ts"),
    import("../capture/readers.ts"),
    import("./beside.ts"),
    import("../exhaust/terms/remembered.ts"),
  ]);
  const file = await openFile(path);
  const thread = isAlone ? storeThread() : null;
  try {
    const report = { progress: () => {}, signal: new AbortController().signal };
    const capture = await readCapture(file, choices, report);
    const recall = remembering();
    return { capture, analysis: await analyseOnTwo(capture, about, recall, thread), recall };
  } finally {
    await thread?.terminate();
    await file.close();
  }
}

/** Says on standard error what went wrong; answers the exit code. */
function explain(error: unknown, name: string): number {
  if (error instanceof WrongCall) {
    console.error(`${error.message}\nnpm run --silent ${name} -- --help shows how it is called.`);
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
  "bad-layout": '--layout "32-bit floating, low byte first, 2 channels, 1000 per second"',
};

function inLines({ code, what, where, remedy }: Problem): string {
  const hint = option[code];
  const help = hint ? `${remedy} Here: ${hint}.` : remedy;
  return `${where ? `${where}: ` : ""}${what}\n${help}`;
}
