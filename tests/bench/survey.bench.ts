// Fifty recordings of 200 s at 100 Hz surveyed on all cores, against one call of `measure` after the other.

import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { demoCars } from "../../sample-traces/simulator/demo-cars.ts";
import { seededRandom } from "../../sample-traces/simulator/random.ts";
import { recordScope } from "../../sample-traces/simulator/recorder.ts";
import { runCar } from "../../sample-traces/simulator/run.ts";
import { root } from "../../src/command/setup.mjs";
import { type Bench, ms } from "./bench.ts";

const files = 50;
const compared = 5;

/** The same drive, with another noise in each file. */
function fill(folder: string): void {
  const history = runCar(demoCars.worn);
  for (let k = 0; k < files; k++) {
    const { stamps, columns } = recordScope(
      history,
      {
        kind: "scope",
        rate: 100,
        from: 2,
        to: 202,
        noise: 0.004,
        resolution: 0.001,
        channels: ["frontVoltage", "rearVoltage", "throttle", "engineSpeed"],
      },
      seededRandom(k + 1),
    );
    const row = (i: number) => [stamps[i]!.toFixed(2), ...columns.map(({ samples }) => samples[i]!.toFixed(3))].join();
    const head = "Time (s),Front O2 sensor (V),Rear O2 sensor (V),Throttle (%),Engine speed (1/min)";
    writeFileSync(join(folder, `${k}.csv`), [head, ...Array.from(stamps, (_, i) => row(i))].join("\n"));
  }
}

function call(...words: string[]): number {
  const started = performance.now();
  const { status } = spawnSync("npm", ["run", "--silent", ...words], { cwd: root });
  if (status !== 0) throw new Error(`${words[0]} ended with ${status}`);
  return performance.now() - started;
}

export const bench: Bench = {
  name: "survey",
  async run() {
    const folder = mkdtempSync(join(tmpdir(), "survey-bench-"));
    fill(folder);
    call("measure", "--", "--help"); // makes the bundle
    const took = call("survey", "--", folder, "--out", join(folder, "table.parquet"));
    const one = Array.from({ length: compared }, (_, k) => call("measure", "--", join(folder, `${k}.csv`)));
    rmSync(folder, { recursive: true });
    const theirs = (one.reduce((sum, each) => sum + each, 0) * files) / compared;
    return [
      {
        what: `survey of ${files} recordings of 200 s at 100 Hz; of 1,000 it takes ${ms((took * 1000) / files)}`,
        budget: "1,000 in <= 5 min on two idle cores",
        figure: ms(took),
        peer: `one measure after the other ${ms(theirs)}`,
        ratio: `${(theirs / took).toFixed(1)}x`,
        holds: (took * 1000) / files <= 300_000,
      },
    ];
  },
};
