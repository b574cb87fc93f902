// Runs trials by name: `tsx tests/trials/run.ts kills 200 [MINUTES [more]]` writes its part of the table; without a name a short form
// of each is run, and nothing is written.

import { bundles } from "./bundles.ts";
import { files } from "./files.ts";
import { kills } from "./kills.ts";
import { storage } from "./storage.ts";
import { markdownOf, type Part, writePart } from "./table.ts";

type How = Parameters<typeof kills>[3];
const trials: Readonly<Record<string, (count: number, from: number, until?: number, how?: How) => Promise<Part>>> = {
  kills,
  bundles,
  files,
  storage,
};

/** In the short form, where not as many as there is time for. */
const shortCounts: Readonly<Record<string, number>> = { bundles: 12, storage: 0 };

const [name, count, minutes, more] = process.argv.slice(2);

if (name === undefined) await short();
else await whole(name);

/** Stops before its count where it is told how many minutes it may take. */
async function whole(name: string): Promise<void> {
  const trial = trials[name];
  if (!trial) throw new Error(`There is no trial ${name}: ${Object.keys(trials).join(", ")}`);
  const until = minutes === undefined ? Number.POSITIVE_INFINITY : Date.now() + 60e3 * Number(minutes);
  const part = await trial(Number(count ?? 1_000), Date.now() % 1e6, until, {
    isMore: more === "more",
    onPart: writePart,
  });
  writePart(part);
  process.stdout.write(markdownOf(part));
  if (!part.isGood) process.exitCode = 1;
}

/** Each gets an equal share of the time, ms. */
async function short(): Promise<void> {
  const share = 20e3;
  for (const [name, trial] of Object.entries(trials)) {
    const part = await trial(shortCounts[name] ?? 1_000, Date.now() % 1e6, Date.now() + share);
    process.stdout.write(`${markdownOf(part)}\n`);
    if (!part.isGood) process.exitCode = 1;
  }
}
