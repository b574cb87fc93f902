// Against the sort that comes with the language.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inOrder } from "../../src/signal/numbers/sorting.ts";
import { uniform } from "./signals.ts";

describe("inOrder", () => {
  test("is the order of the language's own sort, for any numbers", () => {
    const any = fc.float64Array({ minLength: 2048, maxLength: 2100, noNaN: true });
    fc.assert(
      fc.property(any, (values) => {
        expect(inOrder(values.slice())).toEqual(values.slice().sort());
      }),
      { numRuns: 15 },
    );
  });

  test.each([
    ["of single precision", (x: number) => Math.fround(x - 0.5)],
    ["in steps", (x: number) => Math.round(40 * x) / 40 - 0.5],
    ["close together", (x: number) => 1 + 1e-13 * x],
    ["all alike", () => -0.25],
  ])("many numbers %s", (_, of) => {
    const random = uniform(7);
    const values = Float64Array.from({ length: 20_000 }, () => of(random()));
    expect(inOrder(values.slice())).toEqual(values.slice().sort());
  });
});
