// Remarks gathered while reading: each kind once, counted, with the place where it first happened.

import { inWords, joinedWords, type Words } from "../../signal/written/words.ts";
import type { Remark, RemarkCode } from "./capture.ts";

export const missingCells = "empty or marked cells were taken as missing";

/** As it is read, its quantities in the units in force. */
export const remarkText = ({ text, words }: Pick<Remark, "text" | "words">): string => (words ? inWords(words) : text);

/** A remark of words with quantities in them, or of plain words. */
export const remarkOf = (words: Words, rest: Omit<Remark, "text" | "words"> = {}): Remark => ({
  text: inWords(words),
  ...(typeof words === "string" ? {} : { words }),
  ...rest,
});

interface Entry {
  readonly words: Words;
  count: number;
  where: string | undefined;
  readonly isCounted: boolean;
  readonly code: RemarkCode | undefined;
  /** How often it is true of each of several channels. */
  readonly of: Map<string, number>;
}

const mostNamed = 6;

export class RemarkBook {
  readonly #entries = new Map<string, Entry>();

  /** `count` more of the same, seen first at `where`; `of` a channel, where it is about one. */
  tally(words: Words, where?: string, count = 1, of?: string): void {
    const text = inWords(words);
    const entry = this.#entries.get(text) ?? {
      words,
      count: 0,
      where,
      isCounted: true,
      code: undefined,
      of: new Map(),
    };
    entry.count += count;
    if (of !== undefined) entry.of.set(of, (entry.of.get(of) ?? 0) + count);
    this.#entries.set(text, entry);
  }

  /** Said once, without a count. */
  say(words: Words, where?: string, code?: RemarkCode): void {
    const text = inWords(words);
    if (this.#entries.has(text)) return;
    this.#entries.set(text, { words, count: 1, where, isCounted: false, code, of: new Map() });
  }

  /** Takes back what was tallied of one channel. */
  withdraw(text: string, of: string): void {
    const entry = this.#entries.get(text);
    if (!entry) return;
    entry.count -= entry.of.get(of) ?? 0;
    entry.of.delete(of);
    if (entry.count === 0) this.#entries.delete(text);
  }

  add(remarks: readonly Remark[]): void {
    for (const { text, words = text, where, count, code } of remarks) {
      if (count === undefined) this.say(words, where, code);
      else this.tally(words, where, count);
    }
  }

  list(): Remark[] {
    return [...this.#entries.values()].map(({ words, count, where, isCounted, code, of }) =>
      remarkOf(of.size === 0 ? words : joinedWords(words, ": ", named(of)), {
        ...(code === undefined ? {} : { code }),
        ...(where === undefined ? {} : { where }),
        ...(isCounted ? { count } : {}),
      }),
    );
  }
}

/** Names, each with its count where that says more than the sum does. */
function named(of: ReadonlyMap<string, number>): string {
  const isTold = of.size > 1 && [...of.values()].some((count) => count > 1);
  const names = [...of].map(([name, count]) => (isTold ? `${name} (${count})` : name));
  return listed(names, mostNamed);
}

/** The first names, and how many more. */
export function listed(names: readonly string[], most = 8): string {
  return names.length > most ? `${names.slice(0, most).join(", ")} and ${names.length - most} more` : names.join(", ");
}
