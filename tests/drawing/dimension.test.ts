// The geometry of a dimension: what ISO 129-1 asks of the lines, and texts that stay out of each other's way.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Box, overlap } from "../../src/drawing/boxes.ts";
import { type DimensionRequest, dimensionGeometry } from "../../src/drawing/dimension.ts";
import { overlapWith } from "./overlap-with.ts";

const within = { left: 0, top: 0, right: 800, bottom: 300 };
const texts = [
  { width: 50, size: 16 },
  { width: 90, size: 13 },
];
const wide: DimensionRequest = {
  kind: "time",
  from: { x: 200, y: 200 },
  to: { x: 500, y: 200 },
  place: 100,
  texts,
  within,
};
const narrow: DimensionRequest = { ...wide, to: { x: 205, y: 210 } };

describe("dimensionGeometry", () => {
  test("extension lines leave a gap at the measured point and run past the dimension line", () => {
    for (const { from, to } of dimensionGeometry(wide).extensions) {
      expect(from.y).toBeLessThan(200);
      expect(from.y).toBeGreaterThan(190);
      expect(to.y).toBeLessThan(100);
      expect(to.y).toBeGreaterThan(88);
      expect(from.x).toBe(to.x);
    }
  });

  test("arrow tips touch the extension lines; bodies lie between, or outside where there is no room", () => {
    const roomy = dimensionGeometry(wide);
    expect(roomy.arrows.map(([tip]) => tip)).toEqual([
      { x: 200, y: 100 },
      { x: 500, y: 100 },
    ]);
    expect(roomy.arrows[0][1].x).toBeGreaterThan(200);
    expect(roomy.lines).toHaveLength(1);
    const tight = dimensionGeometry(narrow);
    expect(tight.arrowsOutside).toBe(true);
    expect(tight.arrows[0][1].x).toBeLessThan(200);
    expect(tight.arrows[1][1].x).toBeGreaterThan(205);
    expect(tight.lines).toHaveLength(2);
  });

  test("the value stands above a roomy line and the bounds below it; beside a narrow one", () => {
    const roomy = dimensionGeometry(wide);
    expect(roomy.texts[0]).toMatchObject({ x: 350, anchor: "middle" });
    expect(roomy.texts[0]!.y).toBeLessThan(100);
    expect(roomy.texts[1]!.y).toBeGreaterThan(100);
    expect(dimensionGeometry(narrow).texts[0]).toMatchObject({ anchor: "start" });
  });

  test("the text stays in sight when the ends do not", () => {
    const { textBox } = dimensionGeometry({ ...wide, from: { x: -4000, y: 200 }, to: { x: 500, y: 200 } });
    expect(textBox.left).toBeGreaterThanOrEqual(0);
    expect(textBox.right).toBeLessThanOrEqual(800);
  });

  test("a narrow dimension at the right edge has its text on the left", () => {
    const edge = { ...narrow, from: { x: 780, y: 200 }, to: { x: 785, y: 200 } };
    expect(dimensionGeometry(edge).texts[0]!.anchor).toBe("end");
  });

  test("three narrow dimensions beside each other do not overprint", () => {
    const taken: Box[] = [];
    for (const x of [200, 240, 280]) {
      const request = { ...narrow, from: { x, y: 200 }, to: { x: x + 5, y: 200 }, taken: overlapWith([...taken]) };
      taken.push(dimensionGeometry(request).textBox);
    }
    expect(overlap(taken[0]!, taken[1]!) + overlap(taken[0]!, taken[2]!) + overlap(taken[1]!, taken[2]!)).toBe(0);
  });

  test("does not depend on which end comes first", () => {
    const position = fc.integer({ min: 0, max: 800 });
    fc.assert(
      fc.property(position, position, fc.constantFrom("time" as const, "level" as const), (a, b, kind) => {
        const [from, to] = [
          { x: a, y: a / 3 },
          { x: b, y: b / 3 },
        ];
        const one = dimensionGeometry({ ...wide, kind, from, to });
        const other = dimensionGeometry({ ...wide, kind, from: to, to: from });
        expect(other.lines).toEqual(one.lines);
        expect(other.texts).toEqual(one.texts);
      }),
    );
  });
});
