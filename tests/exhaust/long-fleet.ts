// The fleet of the judging seeds. `npm run full:fleet` judges all of it, and writes tests/reference/fleet.json and fleet.md
// beside this file; with `--every N` one car in N is judged and held against that table. Limits were chosen on the "choose"
// seeds only; these are drawn wider, and from other seeds.

import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { departures, type FleetRow, type FleetTable, judgedCars, rates, tally } from "./fleet-table.ts";

const place = new URL("../reference/fleet.json", import.meta.url);
const every = process.argv[2] === "--every" ? Number(process.argv[3]) : 1;
const cars = judgedCars(every);
const rows = tally(cars, (done) => {
  if (done % 25 === 0) console.error(`${done} of ${cars.length}`);
});

const complaints = every === 1 ? writeTable() : againstTable();
for (const complaint of complaints) console.error(complaint);
process.exitCode = complaints.length === 0 ? 0 : 1;

function writeTable(): string[] {
  const found = rates(rows);
  writeFileSync(place, `${JSON.stringify({ cars: cars.length, rates: found, rows } satisfies FleetTable, null, 1)}\n`);
  const text = `# Verdict of the catalyst finding over the fleet

Made by \`npm run full:fleet\` from the judging seeds (\`fleet-table.ts\`); \`README.md\` beside it says how they were drawn.

${asTable(rows)}
`;
  writeFileSync(new URL("fleet.md", import.meta.url), text);
  console.log(text);
  const lines = found.map(
    ({ name, hits, of, bound, limit, holds }) =>
      `${holds ? "holds" : "FAILS"}: ${name}: ${hits} of ${of} (${(100 * bound).toFixed(1)} %, limit ${100 * limit} %)`,
  );
  console.log(lines.join("\n"));
  return lines.filter((line) => line.startsWith("FAILS"));
}

function againstTable(): string[] {
  console.log(asTable(rows));
  if (!existsSync(place))
    return ["There is no table to hold them against: npm run full:fleet makes it, an hour or more."];
  const whole = JSON.parse(readFileSync(place, "utf8")) as FleetTable;
  return departures(rows, whole.rows).map((one) => `Departs from the table of the whole fleet: ${one}`);
}

function asTable(fleet: readonly FleetRow[]): string {
  const lines = fleet.map(({ kind, catalyst, fit, cars: count, verdicts: { catalyst: told } }) => {
    const counts = [count, told["points-to"], told["cannot-say"], told["points-away"]];
    return `| ${[kind, catalyst, fit ? "yes" : "no", ...counts].join(" | ")} |`;
  });
  return `| car | catalyst | fit | cars | points to | cannot say | points away |
| --- | --- | --- | ---: | ---: | ---: | ---: |
${lines.join("\n")}`;
}
