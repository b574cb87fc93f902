// The order of day and month, told from all dates of a file where those of its head leave it open.

import type { ByteSource, ReadChoices } from "../model/reader.ts";

type Order = NonNullable<ReadChoices["dateOrder"]>;

/** Bytes read at once, and at most; a longer recording has had its days by then. */
const piece = 1 << 20;
const most = 64 << 20;
/** A date as people write it, up to a line's worth of text apart from the next. */
const dateShape = /(?<![\d./-])(\d{1,2})([-./])(\d{1,2})\2(\d{4}|\d{2})(?![\d./-])/g;
const longestDate = 12;

/**
 * @returns the order that makes every date one, else that in which the days follow each other; null where both do, or where the
 *          source cannot be read to and fro.
 */
export async function dateOrderOver(source: ByteSource): Promise<Order | null> {
  if (source.isSizeGuessed) return null;
  const seen = new DatesSeen();
  let rest = "";
  for (let at = 0; at < Math.min(source.size, most); at += piece) {
    const bytes = await source.read(at, Math.min(at + piece, source.size));
    const text = rest + plainText(bytes);
    const isLast = at + piece >= source.size;
    // What a piece cuts through is looked at with the next.
    const whole = isLast ? text : text.slice(0, Math.max(0, text.length - longestDate));
    for (const [, a, , b, year] of whole.matchAll(dateShape)) seen.add(Number(a), Number(b), Number(year));
    rest = isLast ? "" : text.slice(whole.length);
  }
  return seen.order();
}

/** Digits and marks are the same in every encoding, but for the zero bytes of UTF-16. */
function plainText(bytes: Uint8Array): string {
  return new TextDecoder("latin1").decode(bytes).replaceAll("\0", "");
}

class DatesSeen {
  #isDayFirst = false;
  #isMonthFirst = false;
  #last: readonly [number, number, number] | null = null;
  /** Steps of more than a day, read one way and the other. */
  readonly #jumps = { "day-first": 0, "month-first": 0 };

  add(a: number, b: number, year: number): void {
    if (a > 31 || b > 31) return;
    if (a > 12) this.#isDayFirst = true;
    if (b > 12) this.#isMonthFirst = true;
    const last = this.#last;
    if (last !== null && last[0] === a && last[1] === b && last[2] === year) return;
    if (last !== null) {
      const apart = (from: number, to: number) => Math.abs(to - from) / 86_400_000;
      if (apart(Date.UTC(last[2], last[1] - 1, last[0]), Date.UTC(year, b - 1, a)) > 1) this.#jumps["day-first"]++;
      if (apart(Date.UTC(last[2], last[0] - 1, last[1]), Date.UTC(year, a - 1, b)) > 1) this.#jumps["month-first"]++;
    }
    this.#last = [a, b, year];
  }

  order(): Order | null {
    if (this.#isDayFirst !== this.#isMonthFirst) return this.#isDayFirst ? "day-first" : "month-first";
    const { "day-first": day, "month-first": month } = this.#jumps;
    if (day === month) return null;
    return day < month ? "day-first" : "month-first";
  }
}
