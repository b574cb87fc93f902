// The calibration suite: how often the bounds of a reading hold a known truth, and how wide they are against the best
// possible. `npm run calibrate` runs it at length and writes calibration.md; a short form runs with the tests.

import { type Outcome, cases as single } from "./cases.ts";
import { random } from "./recorders.ts";
import { dutyCase, lagCase, meanCase, medianCase, periodCase } from "./repeated-cases.ts";

export interface Cell {
  readonly name: string;
  readonly trials: number;
  /** Cases with a claim: measured, at-least or at-most, or bounds given although not resolvable. */
  readonly claims: number;
  readonly held: number;
  readonly measured: number;
  /** Median over measured cases of width / best possible; NaN where none is defined. */
  readonly width: number;
  /** The same against one who does not know the form of an edge. */
  readonly widthOfAnyForm: number;
  /** The same against one who takes a coarse edge for hidden. */
  readonly widthBySteps: number;
  /** The same against one who knows the form of the whole record. */
  readonly widthOfWhole: number;
}

export interface Calibration {
  readonly cells: readonly Cell[];
  /** All cases of a quantity together; what stands as `widthBySteps` is against the best for each case: by steps where an
   * edge is not resolved, else `width`'s. */
  readonly quantities: readonly Cell[];
}

/** Each with the share of the trials it takes; new ones at the end, so that the others keep their chance. */
const cases = [
  ...single,
  ...[
    { run: medianCase, share: 0.6 },
    { run: meanCase, share: 0.6 },
    { run: periodCase, share: 1.2 },
    { run: dutyCase, share: 0.6 },
    { run: lagCase, share: 0.3 },
  ].map((one) => ({ ...one, most: 600 })),
];

/** Runs up to `trials` cases of each quantity and recorder from one seed. */
export function calibrate(trials: number, seed: number): Calibration {
  const outcomes: Outcome[] = [];
  cases.forEach(({ run, share, ...rest }, k) => {
    const wanted = share * Math.min(trials, "most" in rest ? rest.most : trials);
    for (const kind of ["scope", "polled"] as const) {
      const next = random(seed + 7919 * k + (kind === "polled" ? 104729 : 0));
      for (let i = 0; i < wanted; i++) outcomes.push(run(kind, next));
    }
  });
  const names = [...new Set(outcomes.map((outcome) => outcome.cell))].sort();
  const quantities = [...new Set(names.map((name) => name.split(",")[0]!))];
  return {
    cells: names.map((name) =>
      summary(
        name,
        outcomes.filter(({ cell }) => cell === name),
      ),
    ),
    quantities: quantities.map((quantity) => {
      const ofIt = outcomes.filter(({ cell }) => cell.startsWith(`${quantity},`));
      const each = ofIt.map(({ bestBySteps = NaN, ...one }) => ({
        ...one,
        bestBySteps: Number.isNaN(bestBySteps) ? one.best : bestBySteps,
      }));
      return { ...summary(`all: ${quantity}`, each), widthOfAnyForm: NaN, widthOfWhole: NaN };
    }),
  };
}

function summary(name: string, outcomes: readonly Outcome[]): Cell {
  const claims = outcomes.filter(({ reading }) => reading.low !== null || reading.high !== null);
  const measured = outcomes.filter(({ reading }) => reading.grade === "measured");
  return {
    name,
    trials: outcomes.length,
    claims: claims.length,
    held: claims.filter(isHeld).length,
    measured: measured.length,
    width: medianWidth(measured, ({ best }) => best),
    widthOfAnyForm: medianWidth(measured, ({ bestOfAnyForm = NaN }) => bestOfAnyForm),
    widthBySteps: medianWidth(measured, ({ bestBySteps = NaN }) => bestBySteps),
    widthOfWhole: medianWidth(measured, ({ bestOfWhole = NaN }) => bestOfWhole),
  };
}

function medianWidth(outcomes: readonly Outcome[], best: (outcome: Outcome) => number): number {
  const widths = outcomes
    .map((outcome) => (outcome.reading.high! - outcome.reading.low!) / best(outcome))
    .filter((width) => Number.isFinite(width))
    .sort((a, b) => a - b);
  return widths[widths.length >> 1] ?? NaN;
}

/** One unit in the last places is rounding, not a miss. */
function isHeld({ reading, truth }: Outcome): boolean {
  const slack = 1e-9 * Math.max(1, Math.abs(truth));
  return (reading.low ?? -Infinity) <= truth + slack && truth - slack <= (reading.high ?? Infinity);
}

/** What is wanted of a calibration; the sentences that do not hold. */
export function failures({ cells, quantities }: Calibration): string[] {
  const found: string[] = [];
  for (const { name, widthBySteps } of quantities) {
    if (widthBySteps > 2) found.push(`${name}: bounds ${widthBySteps.toFixed(2)} times as wide as the best possible`);
  }
  const claims = cells.reduce((sum, cell) => sum + cell.claims, 0);
  const held = cells.reduce((sum, cell) => sum + cell.held, 0);
  if (held < 0.95 * claims) found.push(`overall only ${percent(held, claims)} held`);
  for (const cell of cells) {
    if (cell.held < leastShare(cell.claims) * cell.claims)
      found.push(`${cell.name}: ${percent(cell.held, cell.claims)} held`);
  }
  return found;
}

/** 92 % for 2,000 trials or more; for fewer, what chance leaves of 95 % in 999 of 1,000 cells (normal approximation). */
function leastShare(trials: number): number {
  return trials >= 2000
    ? 0.92
    : Math.min(0.92, 0.95 - 3.09 * Math.sqrt((0.95 * 0.05) / Math.max(1, trials)) - 0.5 / Math.max(1, trials));
}

export function percent(part: number, whole: number): string {
  return whole === 0 ? "-" : `${((100 * part) / whole).toFixed(1)} %`;
}

/** A table in Markdown. */
export function asTable({ cells, quantities }: Calibration): string {
  const head =
    "| case | trials | held | measured | width / best | of any form | by steps | of whole |\n| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: |";
  const rows = [...cells, ...quantities].map((cell) => {
    const { name, trials, claims, held, measured } = cell;
    const widths = [cell.width, cell.widthOfAnyForm, cell.widthBySteps, cell.widthOfWhole].map((w) =>
      Number.isNaN(w) ? "-" : w.toFixed(2),
    );
    const row = [name, trials, percent(held, claims), percent(measured, trials), ...widths];
    return `| ${row.join(" | ")} |`;
  });
  const claims = cells.reduce((sum, cell) => sum + cell.claims, 0);
  const held = cells.reduce((sum, cell) => sum + cell.held, 0);
  return [head, ...rows, `| all | ${claims} | ${percent(held, claims)} | | | | | |`].join("\n");
}
