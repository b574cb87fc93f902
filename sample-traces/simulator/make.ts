// Writes every sample file and its truth beside it: npm run samples.

import { writeFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { type DemoCar, demoCars } from "./demo-cars.ts";
import { type History, runCar } from "./run.ts";
import { makeSample, sampleFiles } from "./samples.ts";

const folder = new URL("../", import.meta.url);
const drives = new Map<DemoCar, History>();
let total = 0;
for (const file of sampleFiles) {
  const history = drives.get(file.car) ?? runCar(demoCars[file.car]);
  drives.set(file.car, history);
  const { text, truth } = makeSample(file, history);
  const packed = file.recorder.kind === "scope";
  const bytes = packed ? gzipSync(text, { level: 9 }) : Buffer.from(text);
  const name = `${file.name}.csv${packed ? ".gz" : ""}`;
  writeFileSync(new URL(name, folder), bytes);
  writeFileSync(new URL(`${file.name}.truth.json`, folder), `${JSON.stringify(truth)}\n`);
  total += bytes.length;
  console.log(`${name}: ${(bytes.length / 1e3).toFixed(0)} kB`);
}
console.log(`together ${(total / 1e6).toFixed(2)} MB`);
