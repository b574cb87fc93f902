// Words that hold quantities, kept apart from how numbers are written: each is written when it is read, in the units and with the
// decimal mark in force then.

import { formatSpan, formatValue } from "./reading-text.ts";
import { writingInForce } from "./writing.ts";

/** A quantity in a sentence, in the unit of the reading type; or a span of the recording, s. */
export type Told = { readonly value: number; readonly unit: string } | { readonly from: number; readonly to: number };

/** Plain words, or words and quantities in the order in which they are read. */
export type Words = string | readonly (string | Told)[];

export function inWords(words: Words): string {
  if (typeof words === "string") return words;
  return words.map((part) => (typeof part === "string" ? part : toldInWords(part))).join("");
}

/** Fixed words with numbers in them, "0.3 to 0.15 V", "above 80 °C": with the decimal mark and in the temperature in force. */
export function asWritten(text: string): string {
  const mark = writingInForce().decimal;
  return text
    .replace(/(\d+) °C/g, (_, degrees) => formatValue(Number(degrees), "degC"))
    .replace(/(\d)\.(\d)/g, `$1${mark}$2`);
}

const toldInWords = (told: Told): string => ("unit" in told ? formatValue(told.value, told.unit) : formatSpan(told));

/** One after the other, `between` them. */
export const joinedWords = (first: Words, between: string, second: Words): Words => [
  ...(typeof first === "string" ? [first] : first),
  between,
  ...(typeof second === "string" ? [second] : second),
];
