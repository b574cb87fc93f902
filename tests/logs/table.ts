// Odd logs by the thousand, and how they were read: npm run full:logs writes tests/logs/table.md, and fails above 1 % wrong.

import { writeFileSync } from "node:fs";
import { random } from "../reference/recorders.ts";
import { kinds, type Outcome, outcomeOf } from "./kinds.ts";

const files = Number(process.argv[2] ?? 5000);
const names = Object.keys(kinds);
const rows: string[] = [];
let wrong = 0;
for (const [place, kind] of names.entries()) {
  const made = Math.ceil(files / names.length);
  const tally: Record<Outcome, number> = { right: 0, asked: 0, refused: 0, wrong: 0 };
  for (let k = 0; k < made; k++) tally[await outcomeOf(kind, random(100_000 * place + k))]++;
  wrong += tally.wrong;
  rows.push(`| ${kind} | ${made} | ${tally.right} | ${tally.asked} | ${tally.refused} | ${tally.wrong} |`);
}
const text = `# Odd logs, and how they were read

Written by \`npm run full:logs\`. Made by the rules in \`kinds.ts\`; a file is refused rightly where nothing in it says the time.

| kind of file | made | read right | asked | refused rightly | wrong |
| --- | ---: | ---: | ---: | ---: | ---: |
${rows.join("\n")}
`;
writeFileSync(new URL("./table.md", import.meta.url), text);
console.log(text);
process.exitCode = wrong <= 0.01 * files ? 0 : 1;
