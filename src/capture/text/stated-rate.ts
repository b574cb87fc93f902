// A sampling rate stated in words above the numbers.

import { conversionOf } from "../meaning/quantities.ts";
import { kindOf } from "./kinds.ts";

/** Text of the rows above the numbers, each word also with the number right below it: settings stand in either form. */
export function settingsIn(above: readonly (readonly string[])[]): string {
  return above.map((row, r) => [...overNumbers(row, above[r + 1] ?? []), row.join(" ")].join("\n")).join("\n");
}

function overNumbers(words: readonly string[], below: readonly string[]): string[] {
  return words.flatMap((word, i) => {
    const number = below[i] ?? "";
    return kindOf(word, ".") === "text" && kindOf(number, ".") === "number" ? [`${word} ${number}`] : [];
  });
}

const number = String.raw`([+-]?\d+(?:[.,]\d+)?(?:e[+-]?\d+)?)`;
const rateShape = new RegExp(
  String.raw`(?:sampl\w*|abtast\w*|acqui\w*|scan|record\w*|aufzeichnung\w*|mess|muestreo|echantillon\w*)?[\s_-]*(?:rate|freq\w*|frequenz|rate|frecuencia)\b[^\d+-]{0,40}${number}\s*([kM]?(?:Hz|Sa\/s|S\/s|sps|1\/s|samples\/s\w*))?`,
  "i",
);
const stepShape = new RegExp(
  String.raw`(?:interval|intervall|period|increment|inkrement|schritt\w*|delta[ _]?t|\bdt|time ?step|abtastzeit|tastzeit|x ?inc\w*|intervalo|resolution|aufl\w*sung)\b[^\d+-]{0,40}${number}\s*([mun\u00b5\u03bc]?s(?:ec\w*)?)?\b`,
  "i",
);

/** Samples per second stated in words, as a rate or as a step; null where none is. */
export function rateIn(preamble: string): number | null {
  const rate = rateShape.exec(preamble);
  if (rate?.[1])
    return positive(
      Number(rate[1].replace(",", ".")) * (/^k/i.test(rate[2] ?? "") ? 1e3 : /^M/.test(rate[2] ?? "") ? 1e6 : 1),
    );
  const step = stepShape.exec(preamble);
  if (!step?.[1]) return null;
  const { times, over } = conversionOf(step[2] ?? "s");
  return positive(over / (Number(step[1].replace(",", ".")) * times));
}

const positive = (rate: number): number | null =>
  Number.isFinite(rate) && rate > 0 ? Number(rate.toPrecision(12)) : null;
