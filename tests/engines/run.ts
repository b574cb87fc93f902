// Drives the built page end to end in every engine that is installed here, says which were not, and writes `table.md`.
//
// npm run engines [-- NAME]

import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "../../src/command/setup.mjs";
import { startStaticServer } from "../e2e/static-server.ts";
import { built, markdownOf } from "../trials/table.ts";
import type { Driven, Engine } from "./engine.ts";
import { firefox } from "./firefox.ts";
import { Hands } from "./hands.ts";
import { stepsOf } from "./job.ts";
import { webkit } from "./webkit.ts";

type Row = readonly [engine: string, step: string, seen: string];

const wanted = process.argv[2];
const engines = [firefox, webkit].filter(({ name }) => !wanted || name.includes(wanted));
const rows: Row[] = [];
let faults = 0;
for (const engine of engines) {
  const lack = engine.missing();
  if (lack) process.stdout.write(`${engine.name}: not tried, ${lack}\n`);
  else faults += await tried(engine);
}
const columns = ["engine", "step", "what was seen"];
const name = "The main job in other engines";
const part = markdownOf({ name, about: `Written by \`npm run engines\`; faults: ${faults}.`, columns, rows });
if (rows.length > 0 && !wanted) writeFileSync(join(root, "tests/engines/table.md"), part.slice(1));
if (faults > 0) process.exitCode = 1;

/** @returns how many steps failed; what builds on one that failed is not tried. */
async function tried(engine: Engine): Promise<number> {
  const server = await startStaticServer(built);
  const driven = await engine.start();
  process.stdout.write(`${engine.name}: ${driven.version}\n`);
  try {
    for (const step of stepsOf(engine, driven, server)) {
      const { isGood, said } = await seen(step.run, driven);
      rows.push([driven.version === engine.name ? engine.name : `${engine.name} (${driven.version})`, step.what, said]);
      process.stdout.write(`  ${isGood ? "holds" : "FAILS"}: ${step.what}. ${said}\n`);
      if (!isGood) return 1;
    }
    return 0;
  } finally {
    await driven.stop();
    await server.stop().catch(() => {});
  }
}

async function seen(run: () => Promise<string>, driven: Driven): Promise<{ isGood: boolean; said: string }> {
  try {
    const said = await run();
    const noise = await new Hands(driven).noise();
    return noise.length > 0 ? { isGood: false, said: noise.join("; ") } : { isGood: true, said: said || "holds" };
  } catch (error) {
    const folder = process.env.SHOTS;
    if (folder) writeFileSync(join(folder, "engine.png"), await driven.shot());
    return { isGood: false, said: String(error).split("\n")[0]! };
  }
}
