// The short form of the calibration, with fixed seeds. `npm run calibrate` is the long one.

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { asTable, calibrate, failures } from "./calibration.ts";

describe("the calibration suite", () => {
  const calibration = calibrate(120, 42);
  const { cells } = calibration;

  test("finds bounds that hold the truth as often as they say", () => {
    const held = failures(calibration).filter((sentence) => sentence.endsWith("held"));
    expect(held, asTable(calibration)).toEqual([]);
  });

  test("agrees with the committed table within chance", () => {
    const committed = committedCells();
    expect(committed.size).toBeGreaterThanOrEqual(cells.length);
    for (const { name, trials, claims, held, width } of cells) {
      const long = committed.get(name)!;
      expect(long, name).toBeDefined();
      // 99.9 % of a binomial about the long form's share, by the normal approximation with a trial's half to spare.
      const share = Math.min(long.held, 0.995);
      const chance = 3.29 * Math.sqrt((share * (1 - share)) / claims) + 0.5 / claims;
      expect(held / claims, name).toBeGreaterThan(share - chance);
      // A median of fifty cases or more; the widths of frequencies spread over two decades.
      if (trials < 50 || Number.isNaN(width) || Number.isNaN(long.width) || long.measured < 0.5) continue;
      expect(Math.abs(Math.log(width / long.width)), name).toBeLessThan(
        Math.log(name.startsWith("frequency") ? 2.5 : 1.35),
      );
    }
  });

  test("is wanted to hold 95 % over all and 92 % in every large cell, and the table does", () => {
    for (const [name, { trials, held }] of committedCells()) {
      expect(held, name).toBeGreaterThanOrEqual(name.startsWith("all") ? 0.95 : trials >= 2000 ? 0.92 : 0.8);
    }
  });

  test("is wanted to be at most twice as wide as the best possible over each quantity, and the table is", () => {
    const sums = [...committedCells()].filter(
      ([name, { bySteps }]) => name.startsWith("all: ") && !Number.isNaN(bySteps),
    );
    expect(sums.map(([name]) => name)).toEqual(
      ["crossing time", "delay", "frequency", "transition time"].map((quantity) => `all: ${quantity}`),
    );
    for (const [name, { bySteps }] of sums) expect(bySteps, name).toBeLessThanOrEqual(2);
    for (const { name, widthBySteps } of calibration.quantities) {
      const long = committedCells().get(name)!;
      // Medians of some hundred cases.
      if (!Number.isNaN(widthBySteps)) expect(widthBySteps / long.bySteps, name).toBeLessThan(1.25);
    }
  });

  test("finds bounds about as narrow as anyone could give", () => {
    const width = (part: string) => {
      const widths = cells.filter((cell) => cell.name.startsWith(part) && cell.trials >= 20).map((cell) => cell.width);
      return widths.filter((w) => !Number.isNaN(w)).sort((a, b) => a - b);
    };
    // Hidden edges: at most the two samples around them, 1 / 0.95 and 2 / 1.55 steps, widened by repeats.
    for (const hidden of ["crossing time, polled, erf, hidden", "crossing time, polled, ramp, hidden"]) {
      expect(width(hidden)[0]).toBeLessThan(1.2);
    }
    expect(width("delay, polled, hidden")[0]).toBeLessThan(1.6);
    expect(Math.max(...width("crossing time, scope"))).toBeLessThan(2.6);
    // What is wanted, against one who is told the form of an edge no more than we are.
    for (const { name, widthOfAnyForm } of cells.filter((cell) => cell.name.endsWith("resolved"))) {
      expect(widthOfAnyForm, name).toBeLessThanOrEqual(2);
    }
  });

  test("claims no transition time, and hardly a delay, between two samples", () => {
    const hidden = cells.filter(
      (cell) => cell.name.startsWith("transition time, polled") && cell.name.endsWith("hidden"),
    );
    expect(hidden.length).toBe(3);
    for (const cell of hidden) expect(cell.measured / cell.trials).toBeLessThan(0.1);
  });
});

function tableRows(): string[] {
  const text = readFileSync(join(import.meta.dirname, "calibration.md"), "utf8");
  return text.split("\n").filter((line) => /^\| .* \d/.test(line));
}

function committedCells() {
  return new Map(
    tableRows().map((row) => {
      const [name, trials, held, measured, width, , bySteps] = row
        .slice(1)
        .split("|")
        .map((cell) => cell.trim());
      const share = (cell: string | undefined) => Number.parseFloat(cell ?? "") / 100;
      const cell = {
        trials: Number(trials),
        held: share(held),
        measured: share(measured),
        width: Number.parseFloat(width ?? ""),
        bySteps: Number.parseFloat(bySteps ?? ""),
      };
      return [name!, cell] as const;
    }),
  );
}
