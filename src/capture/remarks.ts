// Remarks gathered while reading: each kind once, counted, with the place where it first happened.

import type { Remark } from "./capture.ts";

export class RemarkBook {
  readonly #entries = new Map<string, { count: number; where: string | undefined; isCounted: boolean }>();

  /** One more of the same, seen first at `where`. */
  tally(text: string, where?: string, count = 1): void {
    const entry = this.#entries.get(text);
    if (entry) entry.count += count;
    else this.#entries.set(text, { count, where, isCounted: true });
  }

  /** Said once, without a count. */
  say(text: string, where?: string): void {
    if (!this.#entries.has(text)) this.#entries.set(text, { count: 1, where, isCounted: false });
  }

  add(remarks: readonly Remark[]): void {
    for (const { text, where, count } of remarks) {
      if (count === undefined) this.say(text, where);
      else this.tally(text, where, count);
    }
  }

  list(): Remark[] {
    return [...this.#entries].map(([text, { count, where, isCounted }]) => ({
      text,
      ...(where === undefined ? {} : { where }),
      ...(isCounted ? { count } : {}),
    }));
  }
}
