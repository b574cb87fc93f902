// How often a first look gives another verdict than the whole: `npm run full:first` judges the scope recordings of the fleet
// both ways and writes first-look.md beside this file; `--every N` takes one car in so many.

import { writeFileSync } from "node:fs";
import { simulate } from "../../sample-traces/simulator/fleet.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import { firstLook } from "../../src/exhaust/first-look.ts";
import type { Analysis, Verdict } from "../../src/exhaust/terms/analysis.ts";
import { judgedCars } from "./fleet-table.ts";

const every = process.argv[2] === "--every" ? Number(process.argv[3]) : 1;
const verdicts = ["points-to", "cannot-say", "points-away"] as const satisfies readonly Verdict[];
const counts = new Map<string, number>();
const spent = { first: 0, whole: 0 };
let looked = 0;

const verdictOf = ({ findings }: Analysis): Verdict => findings.find(({ id }) => id === "catalyst")!.verdict;

function timed<T>(which: keyof typeof spent, work: () => T): T {
  const before = process.cpuUsage();
  const value = work();
  const { user, system } = process.cpuUsage(before);
  spent[which] += user + system;
  return value;
}

const cars = judgedCars(every);
for (const [k, car] of cars.entries()) {
  const { capture } = simulate(car);
  const first = timed("first", () => firstLook(capture));
  if (k % 20 === 0) console.error(`${k} of ${cars.length}`);
  if (!first) continue;
  const key = `${verdictOf(first)} ${verdictOf(timed("whole", () => analyse(capture)))}`;
  counts.set(key, (counts.get(key) ?? 0) + 1);
  looked++;
}

const rows = verdicts.map((first) => {
  const told = verdicts.map((whole) => counts.get(`${first} ${whole}`) ?? 0);
  return `| ${[first, ...told].join(" | ")} |`;
});
const turned = (counts.get("points-to points-away") ?? 0) + (counts.get("points-away points-to") ?? 0);
const same = verdicts.reduce((sum, one) => sum + (counts.get(`${one} ${one}`) ?? 0), 0);
const text = `# Verdict of the first look against that of the whole

Made by \`npm run full:first${every === 1 ? "" : ` -- --every ${every}`}\`: ${looked} recordings of the judging seeds that are looked at first by means.
Rows: the catalyst's verdict at the first look; columns: that of the whole.

| first look | ${verdicts.join(" | ")} |
| --- | ---: | ---: | ---: |
${rows.join("\n")}

The same: ${same} of ${looked}. Turned round, from points-to to points-away or back: ${turned}. Time of a processor, first look
over whole: ${(spent.first / spent.whole).toFixed(2)}.
`;
writeFileSync(new URL("first-look.md", import.meta.url), text);
console.log(text);
process.exitCode = turned === 0 ? 0 : 1;
