// A sampling rate stated in words above the numbers.

import { conversionOf } from "../meaning/quantities.ts";
import { kindOf } from "./kinds.ts";

/** Text of the rows above the numbers, each word also with the number right below it: settings stand in either form. */
export function settingsIn(above: readonly (readonly string[])[]): string {
  return above.map((row, r) => [...overNumbers(row, above[r + 1] ?? []), lineOf(row)].join("\n")).join("\n");
}

/** Cells of one row: a name goes on with its value, a value with its unit; other cells speak for themselves. */
export function lineOf(row: readonly string[]): string {
  const isValue = (cell: string | undefined) => /^\s*[+-]?[.,]?\d/.test(cell ?? "");
  return row
    .map((cell, i) => (i === 0 ? "" : isValue(cell) || isValue(row[i - 1]) ? " " : "\n") + cell.trim())
    .join("");
}

function overNumbers(words: readonly string[], below: readonly string[]): string[] {
  return words.flatMap((word, i) => {
    const number = below[i] ?? "";
    return kindOf(word, ".") === "text" && kindOf(number, ".") === "number" ? [`${word} ${number}`] : [];
  });
}

const number = String.raw`([+-]?\d+(?:[.,]\d+)?(?:e[+-]?\d+)?)`;
/** Words that say it is the recorder's own pace, in the languages the roles are told from. */
const sampling = String.raw`(?:sampl\w*|abtast\w*|acqui\w*|scan\w*|record\w*|logg?\w*|aufzeichn\w*|mess\w*|muestreo|echantillon\w*|campion\w*|horizontal|x)`;
const rateWord = String.raw`(?:rate|freq\w*|frequenz|frecuencia|frequenza)`;
const rateUnit = String.raw`[kM]?(?:Hz|Sa\/s|S\/s|sps|1\/s|samples\/s\w*)`;
// A rate: of sampling, in whatever order the words stand; alone on its line; or in samples a second.
const rateShapes = [
  String.raw`${sampling}[\s_-]*(?:\w+[\s_-]+)?${rateWord}\b[^\d\n+-]{0,40}${number}[ \t]*(${rateUnit})?`,
  String.raw`${rateWord}[\s_-]*(?:of|de|d'|di)[\s_-]*${sampling}[^\d\n+-]{0,40}${number}[ \t]*(${rateUnit})?`,
  String.raw`^[^\w\n]*(?:rate|fs|f_s)\b[^\d\n\w+-]{0,20}${number}[ \t]*(${rateUnit})?`,
  String.raw`^[^\w\n]*(?:frequenz|frequency)\b[^\d\n\w+-]{0,20}${number}[ \t]*([kM]?(?:Sa\/s|S\/s|sps|samples\/s\w*))`,
].map((shape) => new RegExp(shape, "im"));
const stepUnit = String.raw`[mun\u00b5\u03bc]?s(?:ec\w*)?`;
const stepWord = String.raw`(?:interval\w*|intervall|period\w*|increment|inkrement|schritt\w*|step|resolution|aufl\w*sung|zeit|time|dist\w*)`;
// A step: of sampling, or a word that can mean nothing else; the number ends there, or in a unit of time.
const stepEnd = String.raw`(?![\w.,]|[ \t]*[-\u2013/%\w\u00b0])`;
const stepShapes = [
  String.raw`${sampling}[\s_-]*(?:\w+[\s_-]+)?${stepWord}\b[^\d\n+-]{0,40}${number}[ \t]*(?:(${stepUnit})\b|${stepEnd})`,
  String.raw`\b(?:delta[ _]?t|dt|time[ _]?step|time[ _]?(?:increment|interval)|abtastzeit|tastzeit|x[ _]?inc\w*|zeitschritt|zeitinkrement)\b[^\d\n+-]{0,40}${number}[ \t]*(?:(${stepUnit})\b|${stepEnd})`,
  String.raw`^[^\w\n]*(?:interval|intervall|intervalo|increment|inkrement|period|periode|schrittweite)\b[^\d\n\w+-]{0,20}${number}[ \t]*(?:(${stepUnit})\b|${stepEnd})`,
].map((shape) => new RegExp(shape, "im"));

/** Samples per second stated in words, as a rate or as a step of sampling; null where none is, whatever other numbers stand there. */
export function rateIn(preamble: string): number | null {
  const rate = firstOf(rateShapes, preamble);
  if (rate?.[1])
    return positive(
      Number(rate[1].replace(",", ".")) * (/^k/i.test(rate[2] ?? "") ? 1e3 : /^M/.test(rate[2] ?? "") ? 1e6 : 1),
    );
  const step = firstOf(stepShapes, preamble);
  if (!step?.[1]) return null;
  const { times, over } = conversionOf(step[2] ?? "s");
  return positive(over / (Number(step[1].replace(",", ".")) * times));
}

function firstOf(shapes: readonly RegExp[], text: string): RegExpExecArray | null {
  for (const shape of shapes) {
    const found = shape.exec(text);
    if (found) return found;
  }
  return null;
}

const positive = (rate: number): number | null =>
  Number.isFinite(rate) && rate > 0 ? Number(rate.toPrecision(12)) : null;
