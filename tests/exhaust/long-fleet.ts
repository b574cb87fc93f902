// The whole fleet of the judging seeds: npm run long:fleet writes tests/reference/fleet.json and fails when a rate does not
// hold. Limits were chosen on the "choose" seeds only; these are drawn wider, and from other seeds.

import { writeFileSync } from "node:fs";
import { judgedCars, rates, tally } from "./fleet-table.ts";

const cars = judgedCars();
const rows = tally(cars, (done) => {
  if (done % 50 === 0) console.error(`${done} of ${cars.length}`);
});
const found = rates(rows);
const table = { split: "judge", cars: cars.length, rates: found, rows };
writeFileSync(new URL("../reference/fleet.json", import.meta.url), `${JSON.stringify(table, null, 1)}\n`);

console.log("| car | catalyst | fit | cars | points to | cannot say | points away |\n|---|---|---|---|---|---|---|");
for (const { kind, catalyst, fit, cars: count, verdicts } of rows) {
  const { catalyst: told } = verdicts;
  console.log(
    `| ${kind} | ${catalyst} | ${fit ? "yes" : "no"} | ${count} | ${told["points-to"]} | ${told["cannot-say"]} | ${told["points-away"]} |`,
  );
}
for (const { name, hits, of, bound, limit, holds } of found) {
  console.log(
    `${holds ? "holds" : "FAILS"}: ${name}: ${hits} of ${of} (${(100 * bound).toFixed(1)} %, limit ${100 * limit} %)`,
  );
}
process.exitCode = found.every(({ holds }) => holds) ? 0 : 1;
