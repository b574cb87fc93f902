// The table of all trials: each script writes its own part of `table.md`, between its heading and the next.

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "../../src/command/setup.mjs";

const file = join(root, "tests/trials/table.md");
const head =
  "# What the trials found\n\nWritten by the scripts in this folder; each part says how many cases its run had.\n";

export interface Part {
  /** Names the part: "Kills". */
  readonly name: string;
  /** What was run: how many, when that matters. */
  readonly about: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly (string | number)[])[];
  /** Whether the run found no fault. */
  readonly isGood: boolean;
}

/** The folder of the built page; `npm run build` makes it. Another may be named, so that building goes on meanwhile. */
export const built = process.env.TRIAL_BUILD ?? join(root, "dist");

export function markdownOf({ name, about, columns, rows }: Omit<Part, "isGood">): string {
  const line = (cells: readonly (string | number)[]) =>
    `| ${cells.map((cell) => String(cell).replaceAll("|", "\\|").replaceAll("\n", " ")).join(" | ")} |`;
  const rule = line(columns.map(() => "---"));
  return `## ${name}\n\n${about}\n\n${[line(columns), rule, ...rows.map(line)].join("\n")}\n`;
}

/** Puts the part in the place of the one of the same name. */
export function writePart(part: Part): void {
  const parts = textOf().split(/(?=^## )/m);
  const others = parts.filter((one) => one.startsWith("## ") && !one.startsWith(`## ${part.name}\n`));
  const all = [...others.map((one) => `${one.trim()}\n`), markdownOf(part)].sort();
  writeFileSync(file, [head, ...all].join("\n"));
}

/** Cells of the part as it stands, without its heads; none where there is no such part. */
export function rowsOf(name: string): readonly (readonly string[])[] {
  const part = textOf()
    .split(/(?=^## )/m)
    .find((one) => one.startsWith(`## ${name}\n`));
  const lines = part?.split("\n").filter((line) => line.startsWith("| ")) ?? [];
  return lines.slice(2).map((line) => line.slice(2, -2).split(" | "));
}

function textOf(): string {
  try {
    return readFileSync(file, "utf8");
  } catch {
    return "";
  }
}
