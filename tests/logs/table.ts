// Odd and slow logs by the thousand, and how they were read: npm run full:logs writes tests/logs/table.md, and fails where its rates do.
//
// npm run full:logs -- [FILES] [DELAYS] [PAIRS] [MINUTES]: as many of each, or fewer where the minutes are over before.

import { writeFileSync } from "node:fs";
import { random } from "../reference/recorders.ts";
import { type DelayTrial, delayTrial } from "./delays.ts";
import { type FoldedTrial, foldedTrial } from "./folded.ts";
import { holds, sumOf } from "./holding.ts";
import { kinds, outcomeOf } from "./kinds.ts";
import type { Outcome } from "./made.ts";

const [files = 5000, delays = 200, pairs = 200, minutes = 60] = process.argv.slice(2).map(Number);
const begun = performance.now();
const isOver = () => performance.now() - begun > 60_000 * minutes;
const shares = 50;

const names = Object.keys(kinds);
const tallies = names.map((): Record<Outcome, number> => ({ right: 0, asked: 0, refused: 0, wrong: 0 }));
const trials: DelayTrial[] = [];
const folded: FoldedTrial[] = [];

/** All of it in small shares, so that whatever was made when time is over is a fair sample. */
for (let share = 1; share <= shares && !isOver(); share++) {
  const upTo = (all: number) => Math.ceil((all * share) / shares);
  for (const [place, kind] of names.entries()) {
    const tally = tallies[place]!;
    const made = () => tally.right + tally.asked + tally.refused + tally.wrong;
    while (made() < upTo(files / names.length)) tally[await outcomeOf(kind, random(100_000 * place + made()))]++;
  }
  while (trials.length < upTo(delays)) trials.push(await delayTrial(trials.length));
  while (folded.length < upTo(pairs)) folded.push(foldedTrial(folded.length));
  writeFileSync(new URL("./table.md", import.meta.url), text());
}

function kindRow(kind: string, place: number): string {
  const { right, asked, refused, wrong } = tallies[place]!;
  return `| ${kind} | ${right + asked + refused + wrong} | ${right} | ${asked} | ${refused} | ${wrong} |`;
}

function delayRow([name, isOf]: readonly [string, (trial: DelayTrial) => boolean]): string {
  const of = trials.filter(isOf);
  const told = of.flatMap((trial) => trial.told);
  const held = told.filter(({ isHeld }) => isHeld).length;
  const widths = of.flatMap(({ rule, told: all }) =>
    all.map(({ low, high }) => ((high - low) * rule.rows) / rule.turn),
  );
  const middle = widths.sort((a, b) => a - b)[widths.length >> 1];
  const sum = (count: (trial: DelayTrial) => number) => of.reduce((total, trial) => total + count(trial), 0);
  const share = told.length === 0 ? "-" : `${((100 * held) / told.length).toFixed(1)} %`;
  return `| ${name} | ${sum(({ closings }) => closings)} | ${told.length} | ${share} | ${middle?.toFixed(1) ?? "-"} | ${sum(({ invented }) => invented)} |`;
}

function foldedRow(name: string, of: readonly FoldedTrial[]): string {
  const isFalse = of.filter((one) => one.isFalse).length;
  return `| ${name} | ${of.length} | ${isFalse} | ${of.flatMap(({ accused }) => accused).length} |`;
}

function text(): string {
  const isIn = (value: number, from: number, to: number) => value >= from && value < to;
  const groups: Readonly<Record<string, (trial: DelayTrial) => boolean>> = {
    "1 to 4 rows/s": ({ rule }) => isIn(rule.rows, 1, 4),
    "4 to 8 rows/s": ({ rule }) => isIn(rule.rows, 4, 8),
    "8 to 14 rows/s": ({ rule }) => isIn(rule.rows, 8, 15),
    "every channel in every row": ({ rule }) => rule.turn === 1,
    "2 to 4 in turn": ({ rule }) => isIn(rule.turn, 2, 5),
    "5 to 12 in turn": ({ rule }) => isIn(rule.turn, 5, 13),
    "held between": ({ rule }) => rule.between === "held",
    "blank between": ({ rule }) => rule.between === "blank",
    "even rows": ({ rule }) => rule.jitter === 0,
    "jittered rows": ({ rule }) => rule.jitter > 0,
    "sensors still": ({ isStill }) => isStill,
    "sensors noisy": ({ isStill }) => !isStill,
    all: () => true,
  };
  const { made, wrong } = sumOf(tallies);
  return `# Odd and slow logs, and how they were read

Written by \`npm run full:logs\`: ${made} files (whole: ${files}), ${trials.length} drives (${delays}), ${folded.length} pairs (${pairs}), ${wrong} files read wrongly. Made by the rules in
\`kinds.ts\`; a file is refused rightly where nothing in it says what is asked of it.

| kind of file | made | read right | asked | refused rightly | wrong |
| --- | ---: | ---: | ---: | ---: | ---: |
${names.map(kindRow).join("\n")}

Delays of lift-offs, against drives in steps of 4 ms (\`delays.ts\`). Width: of the bounds, in renewals of a channel. Invented: counted
as a lift-off where the throttle did not close.

| log | closings | delay told | bounds hold | width | invented |
| --- | ---: | ---: | ---: | ---: | ---: |
${Object.entries(groups).map(delayRow).join("\n")}

A front that switches at one rate, asked at another (\`folded.ts\`). False: called measured, and the truth outside the bounds.

| pairs | made | false | accused |
| --- | ---: | ---: | ---: |
${foldedRow(
  "near-synchronous",
  folded.filter(({ isNear }) => isNear),
)}
${foldedRow(
  "others",
  folded.filter(({ isNear }) => !isNear),
)}
`;
}

console.log(text());
process.exitCode = holds(tallies, trials, folded) ? 0 : 1;
