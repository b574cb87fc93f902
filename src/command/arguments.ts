// The words of the command line, turned into what to read and how to answer.

import { parseArgs } from "node:util";
import { type Bank, type Role, roles } from "../capture/model/capture.ts";
import type { ReadChoices } from "../capture/model/reader.ts";
import type { AnalysisChoices } from "../exhaust/terms/analysis.ts";
import { litresOf } from "../signal/written/engine-size.ts";

const sharedUsage = `  --json                 one JSON object instead of a table
  --role "COLUMN=ROLE"   what a column is; may be given more than once. Roles:
                         ${wrapped(roles)}
  --rate HZ              samples per second, for a file without a time column
  --time "COLUMN"        which column holds the time
  --dates ORDER          day-first or month-first, where dates can be read both ways
  --disorder WAY         leave-out or sort, where many rows' times do not rise
  --missing VALUE        a number that stands for "no value"
  --bank N               which bank to measure, 1 or 2
  --engine-size LITRES   for oxygen by litre of engine, and for air where none was recorded
  --no-header            the first row is data already
  --layout "WORDS"       layout of raw numbers, "16-bit whole, low byte first, 2 channels, 1000 per second,
                         times 0.001, plus 0, unit V, names Front / Rear, skip 0 bytes"
  --member NAME          which file of an archive`;

export const measureUsage = `Usage: npm run --silent measure -- FILE [options]

Measures a recording of the oxygen sensors before and after the catalyst.

${sharedUsage}

Exit: 0 measured, 1 the file could not be read, 2 wrong call, 3 a fault of this program.`;

export const compareUsage = `Usage: npm run --silent compare -- SUSPECT REFERENCE [options]

Compares two recordings of like running: suspect against known-good, or after the repair against before.
The options hold for both.

${sharedUsage}

Exit: 0 compared, 1 a file could not be read, 2 wrong call, 3 a fault of this program.`;

export interface Call {
  /** As many as were asked for. */
  readonly files: readonly string[];
  readonly json: boolean;
  readonly choices: ReadChoices;
  readonly about: AboutCar;
}

/** What was said of the car. */
type AboutCar = Pick<AnalysisChoices, "bank" | "litres">;

/** The call itself is wrong: exit 2. */
export class WrongCall extends Error {}

const options = {
  json: { type: "boolean" },
  role: { type: "string", multiple: true },
  rate: { type: "string" },
  time: { type: "string" },
  dates: { type: "string" },
  disorder: { type: "string" },
  missing: { type: "string" },
  bank: { type: "string" },
  "engine-size": { type: "string" },
  "no-header": { type: "boolean" },
  layout: { type: "string" },
  member: { type: "string" },
  help: { type: "boolean", short: "h" },
} as const;

/**
 * @param wanted  the files the command takes, as it calls them.
 * @returns null when only help was asked for.
 * @throws WrongCall with one line that says what is wrong.
 */
export function readArguments(argv: readonly string[], wanted: readonly string[]): Call | null {
  const { values, positionals: files } = parsed(argv);
  if (values.help) return null;
  const missing = wanted.find((_, k) => (files[k] ?? "") === "");
  if (missing)
    throw new WrongCall(
      `Which file is the ${missing}? Name ${wanted.length === 1 ? "one recording" : wanted.join(" and ")}.`,
    );
  if (files.length > wanted.length) {
    throw new WrongCall(
      `${wanted.length === 1 ? "One file" : "Two files"} at a time, please: got ${files.join(", ")}.`,
    );
  }
  const bank = bankOf(values.bank);
  const choices: ReadChoices = {
    ...(bank ? { bank } : {}),
    ...(values.role ? { roles: rolesOf(values.role) } : {}),
    ...(values.rate === undefined ? {} : { rate: positiveNumber("--rate", values.rate) }),
    ...(values.time === undefined ? {} : { timeColumn: columnName(values.time) }),
    ...(values.dates === undefined ? {} : { dateOrder: dateOrderOf(values.dates) }),
    ...(values.disorder === undefined ? {} : { disorder: disorderOf(values.disorder) }),
    ...(values.missing === undefined ? {} : { missing: plainNumber("--missing", values.missing) }),
    ...(values["no-header"] ? { hasHeader: false } : {}),
    ...(values.layout === undefined ? {} : { layout: values.layout }),
    ...(values.member === undefined ? {} : { member: values.member }),
  };
  const size = values["engine-size"];
  const about = { ...(bank ? { bank } : {}), ...(size === undefined ? {} : { litres: engineSize(size) }) };
  return { files, json: values.json ?? false, choices, about };
}

function parsed(argv: readonly string[]) {
  try {
    return parseArgs({ args: joinedNegatives(argv), options, allowPositionals: true });
  } catch (error) {
    // Node's own sentence names the option; its advice about "--" would confuse here.
    throw new WrongCall((error as Error).message.split("\n")[0]!.split(". ")[0]!);
  }
}

/** "--missing -99" as one word, which the parser would otherwise take for an option. */
function joinedNegatives(argv: readonly string[]): string[] {
  const words: string[] = [];
  for (const word of argv) {
    if (words.at(-1) === "--missing" && /^-[\d.]/.test(word)) words[words.length - 1] = `--missing=${word}`;
    else words.push(word);
  }
  return words;
}

function columnName(text: string): string {
  if (text.trim() === "") throw new WrongCall('--time wants the name of a column, as in --time "Time (s)".');
  return text.trim();
}

function dateOrderOf(text: string): NonNullable<ReadChoices["dateOrder"]> {
  if (text !== "day-first" && text !== "month-first")
    throw new WrongCall(`--dates is day-first or month-first, got "${text}".`);
  return text;
}

function disorderOf(text: string): NonNullable<ReadChoices["disorder"]> {
  if (text !== "leave-out" && text !== "sort") throw new WrongCall(`--disorder is leave-out or sort, got "${text}".`);
  return text;
}

function bankOf(text: string | undefined): Bank | undefined {
  if (text === undefined) return undefined;
  if (text !== "1" && text !== "2") throw new WrongCall(`--bank is 1 or 2, got "${text}".`);
  return text === "1" ? 1 : 2;
}

function engineSize(text: string): number {
  const litres = litresOf(text);
  if (litres === null) throw new WrongCall(`--engine-size wants litres or cm³, as in 1.6, got "${text}".`);
  return litres;
}

function rolesOf(pairs: readonly string[]): Record<string, Role> {
  return Object.fromEntries(
    pairs.map((pair) => {
      const at = pair.lastIndexOf("=");
      const column = pair.slice(0, at).trim();
      const role = pair.slice(at + 1).trim();
      if (at < 1 || column === "") throw new WrongCall(`--role wants "COLUMN=ROLE", got "${pair}".`);
      if (!isRole(role)) throw new WrongCall(`"${role}" is no role. Roles: ${roles.join(", ")}.`);
      return [column, role];
    }),
  );
}

const isRole = (text: string): text is Role => (roles as readonly string[]).includes(text);

function plainNumber(option: string, text: string): number {
  const value = Number(text);
  if (text.trim() === "" || Number.isNaN(value)) throw new WrongCall(`${option} wants a number, got "${text}".`);
  return value;
}

function positiveNumber(option: string, text: string): number {
  const value = plainNumber(option, text);
  if (!(value > 0) || !Number.isFinite(value)) throw new WrongCall(`${option} wants a number above 0, got "${text}".`);
  return value;
}

function wrapped(words: readonly string[]): string {
  const lines: string[] = [""];
  for (const word of words) {
    if (`${lines.at(-1)}, ${word}`.length > 72) lines.push("");
    lines[lines.length - 1] += (lines.at(-1) === "" ? "" : ", ") + word;
  }
  return lines.join(`,\n${" ".repeat(25)}`);
}
