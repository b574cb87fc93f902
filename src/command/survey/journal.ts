// What a survey has measured so far, kept beside its table: stopped and called again, it goes on where it was.

import { createReadStream, existsSync } from "node:fs";
import { type FileHandle, open, rm } from "node:fs/promises";
import { createInterface } from "node:readline";
import type { FoundFile } from "./files.ts";
import type { Row } from "./rows.ts";

/** A row, and of which file at what time it is. */
interface Entry {
  readonly file: string;
  readonly bytes: number;
  readonly changed: number;
  readonly program: string;
  readonly row: Row;
}

export const journalOf = (out: string): string => `${out}.so-far`;

export class Journal {
  readonly #path: string;
  readonly #program: string;
  readonly #entries = new Map<string, Entry>();
  #handle: FileHandle | null = null;

  /** @param program  tells one state of this program from another: rows of another are measured again. */
  constructor(out: string, program: string) {
    this.#path = journalOf(out);
    this.#program = program;
  }

  /** @throws where it can be neither read nor written. */
  async begin(): Promise<void> {
    if (existsSync(this.#path)) {
      for await (const line of createInterface({ input: createReadStream(this.#path) })) this.#take(line);
    }
    this.#handle = await open(this.#path, "a");
    // A line that was cut off when the survey was stopped must not swallow the next.
    await this.#handle.appendFile("\n");
  }

  #take(line: string): void {
    try {
      const entry = JSON.parse(line) as Entry;
      this.#entries.set(entry.file, entry);
    } catch {
      // Empty, or cut off: its file is measured again.
    }
  }

  /** The row measured before; null where the file or the program has changed since. */
  rowOf({ file, bytes, changed }: FoundFile): Row | null {
    const entry = this.#entries.get(file);
    const isSame = entry?.bytes === bytes && entry.changed === changed && entry.program === this.#program;
    return isSame ? entry.row : null;
  }

  async keep({ file, bytes, changed }: FoundFile, row: Row): Promise<void> {
    const entry: Entry = { file, bytes, changed, program: this.#program, row };
    await this.#handle?.appendFile(`${JSON.stringify(entry)}\n`);
  }

  async close(): Promise<void> {
    await this.#handle?.close();
    this.#handle = null;
  }

  /** The table is written: nothing is left to go on with. */
  async done(): Promise<void> {
    await this.close();
    await rm(this.#path, { force: true });
  }
}
