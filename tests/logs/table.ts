// Odd and slow logs by the thousand, and how they were read: npm run full:logs writes tests/logs/table.md, and fails where its rates do.

import { writeFileSync } from "node:fs";
import { random } from "../reference/recorders.ts";
import { type DelayTrial, delayTrial } from "./delays.ts";
import { type FoldedTrial, foldedTrial } from "./folded.ts";
import { kinds, outcomeOf } from "./kinds.ts";
import type { Outcome } from "./made.ts";

const files = Number(process.argv[2] ?? 5000);
const delays = Number(process.argv[3] ?? 200);
const pairs = Number(process.argv[4] ?? 200);

const names = Object.keys(kinds);
const kindRows: string[] = [];
let wrong = 0;
for (const [place, kind] of names.entries()) {
  const made = Math.ceil(files / names.length);
  const tally: Record<Outcome, number> = { right: 0, asked: 0, refused: 0, wrong: 0 };
  for (let k = 0; k < made; k++) tally[await outcomeOf(kind, random(100_000 * place + k))]++;
  wrong += tally.wrong;
  kindRows.push(`| ${kind} | ${made} | ${tally.right} | ${tally.asked} | ${tally.refused} | ${tally.wrong} |`);
}

const trials: DelayTrial[] = [];
for (let k = 0; k < delays; k++) trials.push(await delayTrial(k));
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
const delayRow = ([name, isOf]: readonly [string, (trial: DelayTrial) => boolean]): string => {
  const of = trials.filter(isOf);
  const told = of.flatMap((trial) => trial.told);
  const held = told.filter(({ isHeld }) => isHeld).length;
  const widths = of.flatMap(({ rule, told: all }) =>
    all.map(({ low, high }) => ((high - low) * rule.rows) / rule.turn),
  );
  const middle = widths.sort((a, b) => a - b)[widths.length >> 1];
  const sum = (count: (trial: DelayTrial) => number) => of.reduce((total, trial) => total + count(trial), 0);
  return `| ${name} | ${sum(({ closings }) => closings)} | ${told.length} | ${((100 * held) / told.length).toFixed(1)} % | ${middle?.toFixed(1)} | ${sum(({ invented }) => invented)} |`;
};
const heldAll = trials.flatMap(({ told }) => told.map(({ isHeld }) => isHeld));

const folded = Array.from({ length: pairs }, (_, k) => foldedTrial(k));
const foldedRow = (name: string, of: readonly FoldedTrial[]): string =>
  `| ${name} | ${of.length} | ${of.filter(({ isFalse }) => isFalse).length} | ${of.flatMap(({ accused }) => accused).length} |`;

const text = `# Odd and slow logs, and how they were read

Written by \`npm run full:logs\`. Made by the rules in \`kinds.ts\`; a file is refused rightly where nothing in it says what is
asked of it.

| kind of file | made | read right | asked | refused rightly | wrong |
| --- | ---: | ---: | ---: | ---: | ---: |
${kindRows.join("\n")}

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
writeFileSync(new URL("./table.md", import.meta.url), text);
console.log(text);
const isHeld = heldAll.filter(Boolean).length >= 0.95 * heldAll.length;
const isSound = folded.every(({ accused }) => accused.length === 0);
const areFew = folded.filter(({ isFalse }) => isFalse).length <= 0.05 * pairs;
process.exitCode = wrong <= 0.01 * files && isHeld && isSound && areFew ? 0 : 1;
