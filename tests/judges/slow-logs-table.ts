// Delays and crossing ratios in slow logs of the foreign plants: npm run judge:logs writes tests/judges/slow-logs.md, and fails where bounds do not hold.
//
// npm run judge:logs -- [CARS]: so many of each plant.

import { writeFileSync } from "node:fs";
import {
  delayTrial,
  foreignPlants,
  paceOf,
  type RatioTrial,
  ratioTrial,
  type SlowTrial,
  type Told,
} from "./slow-logs.ts";

const cars = Number(process.argv[2] ?? 60);
const delays: SlowTrial[] = [];
const ratios: RatioTrial[] = [];
for (let number = 0; number < cars; number++)
  for (const plant of foreignPlants) {
    delays.push(await delayTrial(plant, number));
    ratios.push(await ratioTrial(plant, number));
  }

const wanted = 0.95;
const share = (told: readonly Told[]) => told.filter(({ isHeld }) => isHeld).length / told.length;
const percent = (value: number) => (Number.isNaN(value) ? "-" : `${(100 * value).toFixed(1)} %`);
const middle = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1];
const width = (told: readonly Told[]) =>
  middle(told.map(({ low, high }) => high - low).filter(Number.isFinite))?.toFixed(2) ?? "-";

function delayRow(name: string, isOf: (trial: SlowTrial) => boolean): string {
  const of = delays.filter(isOf);
  const told = of.flatMap((trial) => trial.delays);
  const sum = (count: (trial: SlowTrial) => number) => of.reduce((total, trial) => total + count(trial), 0);
  const cells = [sum(({ falls }) => falls), told.length, percent(share(told)), width(told), sum((one) => one.invented)];
  return `| ${name} | ${of.length} | ${cells.join(" | ")} |`;
}

function ratioRow(name: string, isOf: (trial: RatioTrial) => boolean): string {
  const of = ratios.filter(isOf);
  const told = of.flatMap(({ told: one }) => one ?? []);
  return `| ${name} | ${of.length} | ${told.length} | ${percent(share(told))} | ${width(told)} |`;
}

const rows = ({ asking }: { readonly asking: SlowTrial["asking"] }) => paceOf(asking).rows;
const isIn = (from: number, to: number) => (trial: SlowTrial | RatioTrial) => rows(trial) >= from && rows(trial) < to;
const text = `# Delays and crossing ratios in slow logs of foreign plants

Written by \`npm run judge:logs\`: ${cars} cars each of the second and the third plant, sound, worn and dead, some with a slow sensor, in no other
table; asked by the bus loop of \`slow-logs.ts\`, 3 to 11 channels in turn, and read as text. A fall: in a fuel cut both sensors came down
from rich to stay; its truth is that of the ride in steps of 2 ms. Width: middle one of the bounds, s. Invented: counted as a
lift-off where no fuel was cut, be it that the throttle closed and the module cut none.

| log | logs | falls | delay told | bounds hold | width | invented |
| --- | ---: | ---: | ---: | ---: | ---: | ---: |
${delayRow("1 to 4 rows/s", isIn(0, 4))}
${delayRow("4 to 8 rows/s", isIn(4, 8))}
${delayRow("8 to 14 rows/s", isIn(8, 99))}
${(["rounds", "held", "blank", "timer"] as const).map((writes) => delayRow(writes, ({ asking }) => asking.writes === writes)).join("\n")}
${delayRow("sensors still", ({ asking }) => asking.noise === 0)}
${delayRow("sensors noisy", ({ asking }) => asking.noise > 0)}
${foreignPlants.map((plant) => delayRow(`${plant} plant`, (trial) => trial.plant === plant)).join("\n")}
${delayRow("all", () => true)}

Crossings of the rear over those of the front while hot, 5 to 14 rows/s:

| log | logs | told | bounds hold | width |
| --- | ---: | ---: | ---: | ---: |
${ratioRow("5 to 8 rows/s", isIn(0, 8))}
${ratioRow("8 to 14 rows/s", isIn(8, 99))}
${foreignPlants.map((plant) => ratioRow(`${plant} plant`, (trial) => trial.plant === plant)).join("\n")}
${ratioRow("all", () => true)}
`;
writeFileSync(new URL("./slow-logs.md", import.meta.url), text);
console.log(text);

const all = [delays.flatMap((trial) => trial.delays), ratios.flatMap(({ told }) => told ?? [])];
process.exitCode = all.every((told) => told.length > 0 && share(told) >= wanted) ? 0 : 1;
