// npm run judge:store: judges every recording of the table anew and writes it; `-- 3` takes three times as many, `-- 3 --minutes 30` as
// many of them as there is time for.
// npm run long:judge: a share of them, judged anew and held against the table; writes nothing.

import { changed, type Entry, entries, plantsOf, readTable, worse, writeTable } from "./table.ts";
import { judge, type Row } from "./verdict.ts";

const isCheck = process.argv.includes("--check");
const at = process.argv.indexOf("--minutes");
const hundreds = Number(process.argv[2]) > 0 ? Number(process.argv[2]) : 1;
/** ms. How many are looked at depends on the machine; what is said of each does not. */
const longest = isCheck ? 100_000 : at > 0 ? 60_000 * Number(process.argv[at + 1]) : Number.POSITIVE_INFINITY;

async function all(list: readonly Entry[]): Promise<Row[]> {
  const rows: Row[] = [];
  for (const { plant, kind, number } of list) {
    if (performance.now() > longest) break;
    rows.push(await judge(plant, kind, number));
    if (rows.length % 20 === 0) console.error(`${rows.length} of ${list.length}`);
  }
  return rows;
}

if (isCheck) {
  const table = readTable();
  const rows = await all(entries(1, plantsOf(table)).slice(0, table.length));
  const faults = [
    ...changed(rows, table).map((name) => `${name}: not what the table says it is`),
    ...worse(rows, table),
  ];
  console.log(`${rows.length} recordings judged anew, ${faults.length} worse than the table`);
  for (const fault of faults) console.log(fault);
  process.exitCode = faults.length === 0 ? 0 : 1;
} else {
  writeTable(await all(entries(hundreds)));
}
