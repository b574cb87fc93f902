// Large recordings for benchmarks, made once and left in the system's temporary folder.

import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, renameSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { root } from "../../src/command/setup.mjs";

const folder = join(tmpdir(), "tracewright-bench");

export interface LargeFile {
  readonly path: string;
  readonly size: number;
  readonly rows: number;
}

/** A recording of `rows` rows: time, two sensors, throttle and engine speed. WAV holds four channels and no time. */
export function largeFile(kind: "csv" | "wav", rows: number, rate = 10_000): LargeFile {
  mkdirSync(folder, { recursive: true });
  const path = join(folder, `${rows}-${rate}.${kind}`);
  if (!existsSync(path)) {
    const part = path.replace(`.${kind}`, `.part.${kind}`);
    const script = join(root, "sample-traces/simulator/large.ts");
    execFileSync(join(root, "node_modules/.bin/tsx"), [
      script,
      "--rows",
      `${rows}`,
      "--rate",
      `${rate}`,
      "--out",
      part,
    ]);
    renameSync(part, path);
  }
  return { path, size: statSync(path).size, rows };
}

/** Bytes of the columns of a text of `rows` rows once read: four channels in single precision; the time is even. */
export const columnBytes = (rows: number): number => rows * 4 * 4;
