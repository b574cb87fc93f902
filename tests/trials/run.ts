// Runs trials by name: `tsx tests/trials/run.ts kills 200 [--from 7]` writes its part of the table;
// without a name a short form of each is run, and nothing is written.

import { bundles } from "./bundles.ts";
import { files } from "./files.ts";
import { kills } from "./kills.ts";
import { markdownOf, type Part, writePart } from "./table.ts";

const trials: Readonly<Record<string, (count: number, from: number, until?: number) => Promise<Part>>> = {
  kills,
  bundles,
  files,
};

const [name, count, , from] = process.argv.slice(2);

if (name === undefined) await short();
else await whole(name);

async function whole(name: string): Promise<void> {
  const trial = trials[name];
  if (!trial) throw new Error(`There is no trial ${name}: ${Object.keys(trials).join(", ")}`);
  const part = await trial(Number(count), Number(from ?? Date.now() % 1e6));
  writePart(part);
  process.stdout.write(markdownOf(part));
  if (!part.isGood) process.exitCode = 1;
}

/** Each gets an equal share of the time, s. */
async function short(): Promise<void> {
  const share = 25e3;
  for (const trial of Object.values(trials)) {
    const part = await trial(1_000, Date.now() % 1e6, Date.now() + share);
    process.stdout.write(`${markdownOf(part)}\n`);
    if (!part.isGood) process.exitCode = 1;
  }
}
