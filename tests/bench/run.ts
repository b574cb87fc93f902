// npm run bench -- [NAME...]: runs the benchmarks and prints one table.

import { type Bench, type Row, table } from "./bench.ts";

const names = [
  "answer",
  "again",
  "survey",
  "reading",
  "reading-node",
  "windows",
  "measuring",
  "growth",
  "page-size",
  "shelf",
  "packing",
  "larger-than-memory",
];
const wanted = process.argv.slice(2);

const rows: Row[] = [];
for (const name of wanted.length > 0 ? wanted : names) {
  const { bench } = (await import(`./${name}.bench.ts`)) as { bench: Bench };
  console.error(`… ${bench.name}`);
  rows.push(...(await bench.run()));
}
console.log(table(rows));
process.exit(0);
