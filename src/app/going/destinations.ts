// Where the box can go, by the words that name it.

import { numberFrom } from "../../signal/written/typed-number.ts";

export interface Destination {
  /** "Lift-off 2, at 176.9 s". */
  readonly label: string;
  readonly go: () => void;
}

/** All words are the beginnings of words of the label, in any order; no words, all destinations. */
export function matching(all: readonly Destination[], typed: string): readonly Destination[] {
  const wanted = wordsOf(typed);
  return all.filter(({ label }) => {
    const words = wordsOf(label);
    return wanted.every((one) => words.some((word) => word.startsWith(one)));
  });
}

const wordsOf = (text: string): readonly string[] =>
  text
    .toLowerCase()
    .split(/[\s,:-]+/)
    .filter(Boolean);

/** "120", "120 s", "2:03", "2 min": seconds of the recording; null for other words. */
export function timeFrom(typed: string): number | null {
  const clock = /^\s*(\d+):(\d{1,2}(?:[.,]\d+)?)\s*$/.exec(typed);
  if (clock) return 60 * Number(clock[1]) + (numberFrom(clock[2]!) ?? 0);
  const [, number = "", unit = ""] = /^\s*(-?[\d.,]+)\s*(s|sec|seconds?|min|minutes?|)\s*$/i.exec(typed) ?? [];
  const value = number === "" ? null : numberFrom(number);
  return value === null ? null : /^m/i.test(unit) ? 60 * value : value;
}
