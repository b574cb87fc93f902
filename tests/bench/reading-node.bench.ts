// Clean text read in Node, against pandas' C engine with default settings.

import { spawnSync } from "node:child_process";
import { closeSync, openSync, readSync } from "node:fs";
import type { ByteSource } from "../../src/capture/model/reader.ts";
import { readCapture } from "../../src/capture/readers.ts";
import { type Bench, median, megabytes, ms, rate } from "./bench.ts";
import { largeFile } from "./files.ts";

function fileSource(path: string, size: number): ByteSource & { close(): void } {
  const file = openSync(path, "r");
  const fill = (into: Uint8Array, at: number) => readSync(file, into, 0, into.length, at);
  return {
    name: path,
    size,
    async read(from, to) {
      const bytes = new Uint8Array(Math.max(0, Math.min(to, size) - from));
      return bytes.subarray(0, fill(bytes, from));
    },
    stream(from) {
      let next = from;
      return {
        async fill(bytes, at) {
          const count = fill(bytes.subarray(at), next);
          next += count;
          return { bytes, end: at + count };
        },
        close() {},
      };
    },
    close: () => closeSync(file),
  };
}

const pandas = `
import sys, time, pandas
pandas.read_csv(sys.argv[1], nrows=1000)
took = []
for _ in range(3):
    t = time.perf_counter(); frame = pandas.read_csv(sys.argv[1]); took.append((time.perf_counter() - t) * 1e3)
print(sorted(took)[1])
`;

export const bench: Bench = {
  name: "reading-node",
  async run() {
    const file = largeFile("csv", 4_600_000);
    const report = { progress: () => {}, signal: new AbortController().signal };
    const took: number[] = [];
    for (let run = 0; run < 3; run++) {
      const source = fileSource(file.path, file.size);
      const started = performance.now();
      await readCapture(source, {}, report);
      took.push(performance.now() - started);
      source.close();
    }
    const ours = median(took);
    const { status, stdout } = spawnSync("/usr/bin/python3", ["-c", pandas, file.path], { encoding: "utf8" });
    const theirs = status === 0 ? Number(stdout) : Number.NaN;
    return [
      {
        what: `clean CSV, ${megabytes(file.size)}, Node, to a capture`,
        budget: ">= 2x pandas' C engine",
        figure: `${ms(ours)}, ${rate(file.size, ours)}`,
        peer: status === 0 ? `pandas ${ms(theirs)}, ${rate(file.size, theirs)}` : "python3-pandas is not here",
        ratio: `${(theirs / ours).toFixed(1)}x`,
        holds: theirs / ours >= 2,
      },
    ];
  },
};
