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
  // "Step: 0,05 s" that was cut at its decimal comma.
  const isCut = (before: string | undefined, cell: string) =>
    /[a-z].*\s0$/i.test(before?.trim() ?? "") && /^\d+(\s*[a-z]+)?$/i.test(cell.trim());
  return row
    .map((cell, i) => {
      const before = row[i - 1];
      const mark = i === 0 ? "" : isCut(before, cell) ? "." : isValue(cell) || isValue(before) ? " " : "\n";
      return mark + cell.trim();
    })
    .join("");
}

function overNumbers(words: readonly string[], below: readonly string[]): string[] {
  return words.flatMap((word, i) => {
    const number = below[i] ?? "";
    return kindOf(word, ".") === "text" && kindOf(number, ".") === "number" ? [`${word} ${number}`] : [];
  });
}

/** A mark for thousands, which may as well be one for decimals: neither is guessed. */
const thousands = String.raw`[1-9]\d{0,2}[,' ]\d{3}(?!\d)`;
const number = String.raw`(?!${thousands})([+-]?\d+(?:[.,]\d+)?(?:e[+-]?\d+)?)(?![\d:]|[.,/-]\d)`;
/** Words that say it is the recorder's own pace, in the languages the roles are told from; compared without accents. */
const ofSamples = String.raw`sampl\w*|abtast\w*|scan\w*|rows?|muestreo|amostragem|d'echantillon\w*|echantillon\w*|campion\w*|bemonster\w*|probkowani\w*|horizontal|x`;
const sampling = String.raw`(?:${ofSamples}|acqui\w*|record\w*|logg?\w*|aufzeichn\w*|mess\w*)`;
const rateWord = "(?:rate|freq[a-z]*|frequenz|frecuencia|frequenza|frequentie|czestotliwosc|cadence|cadencia|taxa)";
const stepWord = "(?:interval[a-z]*|increment|inkrement|schritt[a-z]*|step)";
/** A step of samples only: the time or period of a recording is how long it lasts. */
const stretchWord = String.raw`(?:period[a-z]*|resolution|aufl\w*sung|zeit|time|dist\w*)`;
const ofWord = "(?:of|de|di|do|der|des|van)";
const rateUnit = String.raw`[kM]?(?:Hz|Sa\/s|S\/s|sps|1\/s|\w+\/s(?:ec\w*)?|(?:samples|rows|lines) (?:per|a) sec\w*)`;
const stepUnit = String.raw`[mun\u00b5\u03bc]?s(?:ec\w*)?|milliseconds?|seconds?|sekunden?|millisekunden?`;
/** From the name to its value: marks, "is", or the unit in brackets or as a part of the name; no further words, which would make it something else. */
const between = (unit: string) =>
  String.raw`[ \t]*(?:[[(_-]? ?(${unit})(?: ?[\])]|(?=[ \t:=,;]))|in (${unit})\b)?(?:[ \t:=,;.]|is\b|was\b){0,20}?`;
// Where a step ends in no unit, the number ends its line.
const stepEnd = String.raw`(?![\w.,:]|[ \t]*[-\u2013/%\w\u00b0])`;

const shaped = (shape: string) => new RegExp(shape, "im");
const notTheMost = String.raw`(?<!\b(?:max\w*|min\w*|highest|up to|possible|over)[. ]*)`;
/** Another device has a pace of its own. */
const notAnother = String.raw`(?<!\b(?:mic\w*|mikro\w*|audio\w*|sound|ton|gps|gnss|imu|gyro\w*|accel\w*|cam\w*|kamera\w*|video\w*|display|screen|monitor)[ \t_-]*)`;
const named = (name: string, unit: string, end: string) =>
  shaped(`${notTheMost}${notAnother}${name}${between(unit)}${number}[ \\t]*${end}`);
const rateOf = (name: string) => named(name, rateUnit, `(${rateUnit})?`);
const stepOf = (name: string) => named(name, stepUnit, `(?:(${stepUnit})\\b|${stepEnd})`);

// A rate: of sampling, in whatever order the words stand; alone on its line; or in samples a second.
const rateShapes = [
  rateOf(String.raw`\b${sampling}[\s_-]*${rateWord}(?![a-z])`),
  rateOf(String.raw`\b${rateWord}[\s_-]*(?:${ofWord}[\s_-]*)?${sampling}\b`),
  rateOf(String.raw`^[^\w\n]*(?:rate|fs|f_s)\b`),
  rateOf(String.raw`\b(?:samples|rows|lines) (?:per|a) sec\w*`),
  shaped(
    String.raw`^[^\w\n]*(?:frequenz|frequency)\b()()[^\d\n\w+-]{0,20}${number}[ \t]*([kM]?(?:Sa\/s|S\/s|sps|samples\/s\w*))`,
  ),
  shaped(
    String.raw`\b(?:sampled|logged|recorded|sampling|logging|recording|abgetastet)[ \t]+(?:at|with|mit)()()[ \t]+${number}[ \t]*(${rateUnit})`,
  ),
  shaped(String.raw`^[^\w\n]*()()${number}[ \t]*(samples\/s\w*|(?:samples|rows) (?:per|a) sec\w*)`),
];
// A step: of sampling, or a word that can mean nothing else; the number ends there, or in a unit of time.
const stepShapes = [
  stepOf(String.raw`\b${sampling}[\s_-]*${stepWord}(?![a-z])`),
  stepOf(String.raw`\b${stepWord}[\s_-]*${ofWord}[\s_-]*${sampling}\b`),
  stepOf(String.raw`\b(?:${ofSamples})[\s_-]*${stretchWord}(?![a-z])`),
  stepOf(String.raw`\b${stretchWord}[\s_-]*${ofWord}[\s_-]*(?:${ofSamples})\b`),
  stepOf(String.raw`\b(?:${stepWord}|${stretchWord})[\s_-]*d'echantillon\w*`),
  stepOf(String.raw`\blogg?\w*[\s_-]*period\w*\b`),
  stepOf(
    String.raw`\b(?:delta[ _]?t|dt|time[ _]?step|time[ _]?(?:increment|interval)|abtastzeit|tastzeit|x[ _]?inc\w*|zeitschritt|zeitinkrement)\b`,
  ),
  // With its unit only: a difference of temperatures is written alike.
  named(String.raw`(?<!\w)[\u0394\u03b4\u2206] ?t\b`, stepUnit, `(${stepUnit})\\b`),
  stepOf(String.raw`^[^\w\n]*(?:increment|inkrement|schrittweite)\b`),
  named(String.raw`^[^\w\n]*(?:interval|intervall|intervalo|period|periode)\b`, stepUnit, `(${stepUnit})\\b`),
  shaped(
    String.raw`\b(?:sampled|logged|recorded|sampling|logging|recording|abtastung|aufzeichnung|messung)[ \t]+(?:every|each|once in|alle)()()[ \t]+${number}[ \t]*(${stepUnit})\b`,
  ),
  shaped(
    String.raw`\btime ?base\b()()[^\d\n\w+-]{0,20}${number}[ \t]*(${stepUnit})[ \t]*(?:\/|per)[ \t]*(?:sample|row|point)`,
  ),
];

/** Samples per second stated in words, as a rate or as a step of sampling; null where none is, whatever other numbers stand there. */
export function rateIn(preamble: string): number | null {
  const text = shortLines(preamble)
    .normalize("NFKD")
    .replace(/[\u0300-\u036f]/g, "")
    .replace(/[\u2018\u2019]/g, "'");
  const rate = firstOf(rateShapes, text);
  if (rate) return positive(rate.value * prefixOf(rate.unit));
  const step = firstOf(stepShapes, text);
  if (!step) return null;
  const { times, over } = conversionOf(step.unit || "s");
  return positive(over / (step.value * times));
}

/** Only ahead of a unit: "Messungen/s" has none. NaN for a small m, which may be meant for a large one. */
function prefixOf(unit: string): number {
  const letter = /^(k|m)(?:ilo|ega)?(?:Hz|Sa\/s|S\/s|sps|(?:samples?|points?|pts|rows|lines)\/s)/i.exec(unit)?.[1];
  if (!letter) return 1;
  return /k/i.test(letter) ? 1e3 : letter === "M" || /^mega/.test(unit) ? 1e6 : Number.NaN;
}

/** What stands further in a line states no rate, and would take long to search. Characters. */
const longestLine = 200;
const mostLines = 4000;
/** So many cells above the one with the number may belong to a name: "Sample", "time", "0.05 s". */
const mostAbove = 3;

/** Lines that hold a number, with those right above them; a mark stands for what is left out. */
function shortLines(text: string): string {
  const lines = text.split("\n").map((line) => line.slice(0, longestLine));
  const kept: string[] = [];
  let next = 0;
  lines.forEach((line, i) => {
    if (kept.length >= mostLines || !/\d/.test(line)) return;
    const from = Math.max(next, i - mostAbove);
    if (from > next) kept.push("|");
    kept.push(...lines.slice(from, i + 1));
    next = i + 1;
  });
  return kept.join("\n");
}

/** The number, and its unit from whichever side it stands. */
function firstOf(shapes: readonly RegExp[], text: string): { readonly value: number; readonly unit: string } | null {
  for (const shape of shapes) {
    const found = shape.exec(text);
    if (found) {
      const [, inBrackets, inWords, value = "", behind] = found;
      return { value: Number(value.replace(",", ".")), unit: behind || inBrackets || inWords || "" };
    }
  }
  return null;
}

const positive = (rate: number): number | null =>
  Number.isFinite(rate) && rate > 0 ? Number(rate.toPrecision(12)) : null;
