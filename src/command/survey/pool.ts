// Processes that measure one file after the other, one for each core. A file that brings its process down, by using up the
// memory for instance, is a broken file; the others go on in a new one.

import { type ChildProcess, fork } from "node:child_process";
import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";
import type { FoundFile } from "./files.ts";
import { brokenRow, type Row } from "./rows.ts";

/** Asked of a process; it answers with the row. */
export type Asked = Pick<FoundFile, "file" | "path" | "bytes">;

/** Calls back with each file's row, in whatever order they come. Resolves when all are there. */
export async function measureAll(
  files: readonly FoundFile[],
  onRow: (file: FoundFile, row: Row) => Promise<void>,
): Promise<void> {
  const todo = [...files];
  const work = async () => {
    let worker: Worker | null = null;
    for (let file = todo.shift(); file; file = todo.shift()) {
      worker ??= new Worker();
      const row: Row | null = await worker.measure(file);
      if (row === null) worker = null;
      await onRow(file, row ?? fallen(file));
    }
    worker?.end();
  };
  await Promise.all(Array.from({ length: Math.min(files.length, availableParallelism()) }, work));
}

const fallen = ({ file, bytes }: FoundFile): Row =>
  brokenRow(file, bytes, { code: "fault", what: "Measuring this file ended the process that did it." });

class Worker {
  readonly #process: ChildProcess;

  constructor() {
    const isBuilt = import.meta.url.endsWith(".mjs");
    const name = isBuilt ? "./survey-worker.mjs" : "../survey-worker.ts";
    this.#process = fork(fileURLToPath(new URL(name, import.meta.url)), {
      stdio: ["ignore", "ignore", "ignore", "ipc"],
      execArgv: isBuilt ? [] : ["--import", "tsx"],
    });
  }

  /** @returns null where the process ended without an answer. */
  measure({ file, path, bytes }: FoundFile): Promise<Row | null> {
    const asked: Asked = { file, path, bytes };
    return new Promise((resolve) => {
      const settle = (row: Row | null) => {
        this.#process.removeAllListeners();
        resolve(row);
      };
      this.#process.once("message", (row: Row) => settle(row));
      this.#process.once("exit", () => settle(null));
      this.#process.once("error", () => settle(null));
      this.#process.send(asked, (error) => error && settle(null));
    });
  }

  end(): void {
    this.#process.disconnect();
  }
}
