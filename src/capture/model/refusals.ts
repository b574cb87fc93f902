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

/** More rows than one in twenty would fall out, as their times do not rise or cannot be read. */
export function rowsLost(
  name: string,
  {
    rows,
    unreadable,
    inAll,
    first,
  }: { readonly rows: number; readonly unreadable: number; readonly inAll: number; readonly first: number },
): ProblemError {
  const isUnread = unreadable === rows;
  const others = "name another column of time, or export the recording again.";
  return new ProblemError({
    code: "rows-lost",
    what: isUnread
      ? `${rows} of ${inAll} rows have a time that cannot be read.`
      : `${rows} of ${inAll} rows have a time that does not follow the row before${unreadable > 0 ? `, or none that can be read (${unreadable})` : ""}.`,
    remedy: isUnread
      ? `Say that they are to be left out (on the command line --disorder leave-out), ${others}`
      : `Say whether they are to be left out, or all rows put in the order of their times (on the command line --disorder leave-out or --disorder sort), ${others}`,
    where: `${name}, row ${first + 1}`,
  });
}

/** @param nearly  a column that is named like a time; with a cell that is understood as none, or one that never moves. */
export function noTime(
  name: string,
  line: number,
  nearly?: { readonly name: string; readonly cell?: string },
): ProblemError {
  const but = nearly?.cell === undefined ? "does not move" : `“${nearly.cell}” in it is not understood as a time`;
  return new ProblemError({
    code: "no-time",
    what: `${name} has no column of time, and says no sampling rate.${nearly ? ` ${nearly.name} is named like one, but ${but}.` : ""}`,
    remedy:
      "State the sampling rate in samples per second (--rate HZ on the command line), or name the column that holds the time.",
    where: `${name}, line ${line}`,
  });
}

/** The column that was named as the time is not there. */
export function noSuchColumn(said: string, names: readonly string[]): ProblemError {
  const all = names.slice(0, 8).join(", ");
  return new ProblemError({
    code: "wrong-choice",
    what: `No column is named ${said}, which was to be the time.`,
    remedy: `Name one of these: ${all}${names.length > 8 ? `, or one of ${names.length - 8} more` : ""}.`,
  });
}
