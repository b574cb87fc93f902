// A whole recording of 206 s at 1 kHz: the command from start to exit, its readings against NumPy and SciPy, what an edit and a
// comparison take. Arithmetic is told in time of a processor, so that a busy machine changes little.

import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Capture } from "../../src/capture/model/capture.ts";
import { measureFile } from "../../src/command/run.ts";
import { root } from "../../src/command/setup.mjs";
import { measureSides, measureSwing, switchingOnly } from "../../src/exhaust/activity/pair.ts";
import { analyse, spanOf } from "../../src/exhaust/analyse.ts";
import { comparableOf } from "../../src/exhaust/comparing/comparable.ts";
import { compareRecordings } from "../../src/exhaust/comparing/compare.ts";
import type { Analysis, AnalysisChoices } from "../../src/exhaust/terms/analysis.ts";
import { channelsOf } from "../../src/exhaust/terms/channels.ts";
import { limitsInForce } from "../../src/exhaust/terms/limits.ts";
import { anew, type Recall } from "../../src/exhaust/terms/remembered.ts";
import type { Samples } from "../../src/signal/series/series.ts";
import { type Bench, median, ms } from "./bench.ts";

const sample = join(root, "sample-traces/dead-catalyst-scope.csv.gz");
const rate = 1000;

/** Two channels in single precision (RIFF, format 3). */
function wav(front: Samples, rear: Samples): Buffer {
  const head = Buffer.alloc(44);
  const bytes = 8 * front.length;
  head.write("RIFF", 0);
  head.writeUInt32LE(36 + bytes, 4);
  head.write("WAVEfmt ", 8);
  const words = [16, 3 | (2 << 16), rate, 8 * rate, 8 | (32 << 16)];
  for (const [k, word] of words.entries()) head.writeUInt32LE(word, 16 + 4 * k);
  head.write("data", 36);
  head.writeUInt32LE(bytes, 40);
  return Buffer.concat([
    head,
    Buffer.from(Float32Array.from({ length: 2 * front.length }, (_, i) => (i % 2 ? rear : front)[i >> 1]!).buffer),
  ]);
}

interface Took {
  readonly passed: number;
  readonly busy: number;
}

/** Milliseconds from start to exit, and of a processor with all that was started, of three calls; the first of all makes the bundle and does not count. */
function fromStartToExit(): Took[] {
  const call = (): Took => {
    const timed = `TIMEFORMAT="%R %U %S"; time npm run --silent measure -- "${sample}" >/dev/null`;
    const { status, stderr } = spawnSync("bash", ["-c", timed], { cwd: root, encoding: "utf8" });
    if (status !== 0) throw new Error(`measure ended with ${status}`);
    const [passed, user, system] = stderr.trim().split("\n").at(-1)!.split(" ").map(Number);
    return { passed: 1000 * passed!, busy: 1000 * (user! + system!) };
  };
  call();
  return [call(), call(), call()];
}

/** Milliseconds of a processor. */
function busy(work: () => unknown): number {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

/** As it is read anew each time: nothing that was found is kept. */
const anewOf = (capture: Capture): Capture => ({
  ...capture,
  channels: capture.channels.map((one) => ({
    ...one,
    series: { ...one.series, samples: one.series.samples.slice() },
  })),
});

/** Both sensors over the whole and each stretch, and how far the rear follows over each window of the flow picture. */
function readings(capture: Capture, { bank, stretches, flowPicture }: Analysis): void {
  const channels = switchingOnly(channelsOf(capture, bank));
  const limits = limitsInForce();
  for (const span of [spanOf(capture), ...stretches]) measureSides(channels, { span, limits, leastCycles: 1 });
  for (const span of flowPicture.points) measureSwing(channels, { span, limits, leastCycles: 1 });
}

/** The same kernels over the same spans; NaN without Python. */
function theirReadings(capture: Capture, { stretches, flowPicture }: Analysis): number {
  const [front, rear] = ["front-o2", "rear-o2"].map((role) => capture.channels.find((one) => one.role === role)!);
  const folder = mkdtempSync(join(tmpdir(), "answer-"));
  writeFileSync(join(folder, "pair.wav"), wav(front!.series.samples, rear!.series.samples));
  const spans = [...stretches, ...flowPicture.points];
  const words = spans.map(({ from, to }) => `${Math.floor(from * rate)}:${Math.floor(to * rate)}`);
  const script = fileURLToPath(new URL("./readings.py", import.meta.url));
  const { status, stdout } = spawnSync("/usr/bin/python3", [script, join(folder, "pair.wav"), ...words], {
    encoding: "utf8",
  });
  rmSync(folder, { recursive: true });
  return status === 0 ? 1000 * Number(stdout.split(" ")[1]) : Number.NaN;
}

/** What an edit takes where all else is remembered. */
function edited(capture: Capture, { liftOffs, stretches }: Analysis, recall: Recall) {
  const longest = stretches.reduce((so, one) => (one.to - one.from > so.to - so.from ? one : so));
  const edits: readonly (readonly [string, AnalysisChoices])[] = [
    ["lift-off set aside", { edits: [{ kind: "reject", id: liftOffs[1]!.id, because: "gear change" }] }],
    ["stretch corrected", { stretches: [{ from: longest.from, to: longest.to, kind: "load" }] }],
    ["limit of a finding", { limits: { soundStore: 1.2 * limitsInForce().soundStore } }],
  ];
  return edits.map(([name, choices]) => ({ name, took: busy(() => analyse(capture, choices, () => {}, recall)) }));
}

export const bench: Bench = {
  name: "answer",
  async run() {
    const call = { files: [sample], json: false, choices: {}, about: {} };
    const { capture, analysis, recall } = await measureFile(sample, call);
    const edits = edited(capture, analysis, recall);
    const comparing = busy(() => {
      const mine = comparableOf(capture, analysis, {}, recall);
      compareRecordings(mine, mine);
    });
    const afterReload = busy(() => comparableOf(anewOf(capture), analysis, {}, anew));
    const [cold, ...warm] = [1, 2, 3].map(() => busy(() => readings(anewOf(capture), analysis)));
    const all = median([1, 2, 3].map(() => busy(() => analyse(anewOf(capture)))));
    const theirs = theirReadings(capture, analysis);
    const ours = median(warm);
    const calls = fromStartToExit();
    const spans = 1 + analysis.stretches.length + analysis.flowPicture.points.length;
    return [
      {
        what: "measure, 206 s of 6 channels at 1 kHz, from start to exit",
        budget: "<= 1.2 s on two idle cores",
        figure: calls.map(({ passed, busy }) => `${ms(passed)} (${ms(busy)} of a processor)`).join(", "),
        peer: "-",
        ratio: "-",
        holds: median(calls.map(({ passed }) => passed)) <= 1200,
      },
      {
        what: `the readings of that answer over ${spans} spans, each with its bounds; time of a processor`,
        budget: ">= 4x NumPy and SciPy",
        figure: `${ms(ours)} (first time ${ms(cold!)}; lift-offs, store and findings with them ${ms(all)})`,
        peer: Number.isNaN(theirs)
          ? "python3-scipy is not here"
          : `NumPy and SciPy, values without bounds ${ms(theirs)}`,
        ratio: `${(theirs / ours).toFixed(2)}x`,
        holds: theirs / ours >= 4,
      },
      {
        what: "an edit, to its verdict; time of a processor",
        budget: "<= 200 ms each",
        figure: edits.map(({ name, took }) => `${name} ${ms(took)}`).join(", "),
        peer: `all anew ${ms(all)}`,
        ratio: edits.map(({ took }) => `${(took / all).toFixed(2)}x`).join(", "),
        holds: edits.every(({ took }) => took <= 200),
      },
      {
        what: "comparing, beyond the two answers; time of a processor",
        budget: "<= 1.0 s",
        figure: `${ms(comparing)}; of an answer kept from before a reload ${ms(afterReload)} for each`,
        peer: `all anew ${ms(all)}`,
        ratio: `${(comparing / all).toFixed(2)}x`,
        holds: comparing <= 1000 && 2 * afterReload <= 1000,
      },
    ];
  },
};
