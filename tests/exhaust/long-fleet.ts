// The whole fleet of the judging seeds: npm run long:fleet writes tests/reference/fleet.json and fleet.md beside this file, and fails when a rate does not
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

const lines = rows.map(({ kind, catalyst, fit, cars: count, verdicts: { catalyst: told } }) => {
  const cells = [kind, catalyst, fit ? "yes" : "no", count, told["points-to"], told["cannot-say"], told["points-away"]];
  return `| ${cells.join(" | ")} |`;
});
const head =
  "| car | catalyst | fit | cars | points to | cannot say | points away |\n| --- | --- | --- | ---: | ---: | ---: | ---: |";
const text = `# Verdict of the catalyst finding over the fleet

Made by \`npm run long:fleet\` from the judging seeds (\`fleet-table.ts\`); \`README.md\` beside it says how they were drawn.

${head}
${lines.join("\n")}
`;
writeFileSync(new URL("fleet.md", import.meta.url), text);
console.log(text);
for (const { name, hits, of, bound, limit, holds } of found) {
  console.log(
    `${holds ? "holds" : "FAILS"}: ${name}: ${hits} of ${of} (${(100 * bound).toFixed(1)} %, limit ${100 * limit} %)`,
  );
}
process.exitCode = found.every(({ holds }) => holds) ? 0 : 1;
