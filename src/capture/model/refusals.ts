// Why a file that was understood is no recording all the same.

import { ProblemError } from "../../problem.ts";

export function noNumbers(name: string): ProblemError {
  return new ProblemError({
    code: "no-numbers",
    what: `${name} holds no column of numbers.`,
    remedy:
      "Choose the file your recorder wrote, or export the recording as delimited text with one column per channel.",
    where: name,
  });
}

export function tooFewRows(name: string, rows: number): ProblemError {
  return new ProblemError({
    code: "too-few-rows",
    what: `${name} holds ${rows === 1 ? "only one row" : `${rows} rows`} of numbers; a trace needs at least two.`,
    remedy: "Record for longer, or check that the whole file was copied.",
    where: name,
  });
}

export function headerOnly(name: string, line: number): ProblemError {
  return new ProblemError({
    code: "too-few-rows",
    what: `${name} has a header but no rows of numbers below it.`,
    remedy: "Record for longer, or export again: the recording itself was not written.",
    where: `${name}, line ${line}`,
  });
}

export function noTime(name: string, line: number): ProblemError {
  return new ProblemError({
    code: "no-time",
    what: `${name} has no column of time, and says no sampling rate.`,
    remedy:
      "State the sampling rate in samples per second (--rate HZ on the command line), or name the column that holds the time.",
    where: `${name}, line ${line}`,
  });
}
