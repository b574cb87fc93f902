// The judges' table: which recordings, how it is kept, and how it is written for people.

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { operatingCurve } from "./curve.ts";
import { halfOf, halvesOf, missesOf, type Rate, ratesOf } from "./rates.ts";
import { type Kind, kinds, type PlantName, plantNames } from "./recording.ts";
import type { Row } from "./verdict.ts";

/** How many of each kind a hundred recordings hold. */
const perHundred: Readonly<Record<Kind, number>> = {
  healthy: 20,
  worn: 8,
  dead: 16,
  "dead-behind-slow-rear": 5,
  "slow-front": 4,
  "slow-rear": 4,
  "rear-asleep": 4,
  offset: 4,
  "leak-ahead": 4,
  "leak-between": 6,
  rich: 3,
  lean: 3,
  misfire: 3,
  "swapped-leads": 4,
  "no-cut": 3,
  "start-stop": 4,
  cold: 2,
  "idle-only": 2,
  "too-short": 1,
};

export interface Entry {
  readonly plant: PlantName;
  readonly kind: Kind;
  readonly number: number;
}

/**
 * Recordings to be judged: `hundreds` of hundreds of each half; every kind once before any a second time.
 *
 * @param plants those that a table speaks of (`plantsOf`), all where none is named.
 */
export function entries(hundreds: number, plants: readonly PlantName[] = plantNames): Entry[] {
  const list = kinds.flatMap((kind) => {
    const count = Math.max(1, Math.round(perHundred[kind] * hundreds));
    return Array.from({ length: count }, (_, k): Entry[] => [
      { plant: "first", kind, number: 2 * k },
      { plant: "first", kind, number: 2 * k + 1 },
      { plant: "second", kind, number: k },
      { plant: "third", kind, number: k },
    ]).flat();
  });
  const turn = ({ plant, number }: Entry) => (plant === "first" ? Math.floor(number / 2) : number);
  return list.filter(({ plant }) => plants.includes(plant)).sort((a, b) => turn(a) - turn(b));
}

/** A table may be older than a plant. */
export const plantsOf = (table: readonly Row[]): PlantName[] =>
  plantNames.filter((name) => table.some(({ plant }) => plant === name));

const folder = import.meta.dirname;
const kept = join(folder, "store-judge.json");

export const readTable = (): Row[] => JSON.parse(readFileSync(kept, "utf8")) as Row[];

export function writeTable(rows: readonly Row[]): void {
  writeFileSync(kept, `[\n${rows.map((row) => JSON.stringify(row)).join(",\n")}\n]\n`);
  writeFileSync(join(folder, "store-judge.md"), asPage(rows));
  writeFileSync(join(folder, "operating-curve.svg"), operatingCurve(rows));
}

/** The same from the same rows: a test holds the committed page against it. */
export function asPage(rows: readonly Row[]): string {
  return `# What the findings say of ${rows.length} simulated recordings

Made by \`npm run judge:store\`. ${plantsOf(rows).length === 2 ? "Two" : "Three"} plants that share no code (README.md beside this file); rules may be chosen on the first plant's even
numbers only. Fit: hot, a cruise of 30 s or two fuel cuts, a log that asks each channel 8 times a second. In brackets: 95 % bounds of
the rate (Clopper and Pearson). ![Operating curve](operating-curve.svg)

${halvesOf(rows)
  .map((half) => ratesPage(rows, half))
  .join("\n")}
## Misses, one by one

Misses of the half to choose on are left out: they may be looked at, and are.

${missesPage(rows)}`;
}

function ratesPage(rows: readonly Row[], half: Rate["half"]): string {
  const rates = ratesOf(rows.filter((row) => halfOf(row) === half)).filter((rate) => rate.half === half);
  const names = [...new Set(rates.map(({ name }) => name))];
  const lines = names.map((name) => {
    const both = rates.filter((rate) => rate.name === name);
    return `| ${name} | ${both[0]!.wanted} | ${both.map(inWords).join(" | ")} |`;
  });
  return `## ${half}\n\n| fit recordings | wanted | scopes | logs |\n| --- | --- | --- | --- |\n${lines.join("\n")}\n`;
}

function inWords({ hits, of, low, high, holds }: Rate): string {
  if (holds === null) return "-";
  const per = (share: number) => (100 * share).toFixed(0);
  return `${holds ? "" : "**NO** "}${hits} of ${of} = ${per(hits / of)} % (${per(low)} to ${per(high)})`;
}

function missesPage(rows: readonly Row[]): string {
  const judged = rows.filter((row) => halfOf(row) !== "first plant, choose");
  const lines = judged.flatMap((row) => {
    const misses = missesOf(row);
    if (misses.length === 0) return [];
    const { plant, kind, number, recorder, rate, fit, store, largestOffer } = row;
    const what = `${store.toPrecision(2)} g, offered ${largestOffer.toPrecision(2)} g`;
    return [
      `| ${plant} ${kind} ${number} | ${recorder} ${rate.toPrecision(3)}/s${fit ? "" : ", not fit"} | ${what} | ${misses.join("; ")} |`,
    ];
  });
  return `| recording | recorder | store, largest offer | what is wrong |\n| --- | --- | --- | --- |\n${lines.join("\n")}\n`;
}

/** Answers that are worse than those the table tells of the same recordings. */
export function worse(now: readonly Row[], table: readonly Row[]): string[] {
  return now.flatMap((row) => {
    const before = table.find(
      ({ plant, kind, number }) => plant === row.plant && kind === row.kind && number === row.number,
    );
    const name = `${row.plant} ${row.kind} ${row.number}`;
    if (!before) return [`${name}: not in the table`];
    const known = missesOf(before);
    const grave = (miss: string) =>
      !known.includes(miss) &&
      !/cannot say|not told/.test(miss) &&
      !(miss.startsWith("store") && known.some((one) => one.startsWith("store")));
    return missesOf(row)
      .filter(grave)
      .map((miss) => `${name}: ${miss}`);
  });
}

/** Recordings that are no longer what the table says they are: the plants have changed. */
export function changed(now: readonly Row[], table: readonly Row[]): string[] {
  const truth = ({ plant, kind, number, recorder, rate, fit, store, usable, largestOffer }: Row) =>
    JSON.stringify(
      [plant, kind, number, recorder, rate, fit, store, usable, largestOffer].map((one) =>
        typeof one === "number" ? one.toPrecision(9) : one,
      ),
    );
  const known = new Set(table.map(truth));
  return now.filter((row) => !known.has(truth(row))).map(({ plant, kind, number }) => `${plant} ${kind} ${number}`);
}
