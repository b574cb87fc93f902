// npm run bench -- [NAME...]: runs the benchmarks and prints one table.

import { build } from "vite";
import { root } from "../../src/command/setup.mjs";
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

// Those of the page run the product as it is now, not what was built some time ago.
await build({ root, logLevel: "error" });

const rows: Row[] = [];
for (const name of wanted.length > 0 ? wanted : names) {
  const { bench } = (await import(`./${name}.bench.ts`)) as { bench: Bench };
  console.error(`… ${bench.name}`);
  rows.push(...(await bench.run()));
}
console.log(table(rows));
process.exit(0);
