// The short form of the calibration, with fixed seeds. `npm run calibrate` is the long one.

import { describe, expect, test } from "vitest";
import { asTable, calibrate, failures } from "./calibration.ts";

describe("the calibration suite", () => {
  const cells = calibrate(120, 42);

  test("finds bounds that hold the truth as often as they say", () => {
    expect(failures(cells), asTable(cells)).toEqual([]);
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
  });

  test("claims no transition time, and hardly a delay, between two samples", () => {
    const hidden = cells.filter(
      (cell) => cell.name.startsWith("transition time, polled") && cell.name.endsWith("hidden"),
    );
    expect(hidden.length).toBe(3);
    for (const cell of hidden) expect(cell.measured / cell.trials).toBeLessThan(0.1);
  });
});
