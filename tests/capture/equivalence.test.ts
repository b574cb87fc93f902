// Wide-band fronts that do not say lambda: an equivalence ratio, and the pump's current.

import { describe, expect, test } from "vitest";
import { isEquivalence, turnedOver } from "../../src/capture/meaning/equivalence.ts";
import { roleNamedBy } from "../../src/capture/meaning/roles.ts";

describe("an equivalence ratio", () => {
  const cut = Float64Array.from({ length: 200 }, (_, i) => (i < 40 ? 0.05 : i < 60 ? 1.15 : 1));

  test("is known by its name and by values that no lambda can have", () => {
    expect(isEquivalence("Equivalence ratio B1S1", cut)).toBe(true);
    expect(isEquivalence("Lambda B1S1", cut)).toBe(false);
  });

  test("that never falls below any lambda is left: the same name stands for lambda in PID 44", () => {
    expect(isEquivalence("Equivalence ratio B1S1", Float64Array.of(0.9, 1, 1.1))).toBe(false);
  });

  // Closed form: lambda = 1 / equivalence ratio.
  test("turned over gives lambda, and air stays finite", () => {
    expect([...turnedOver(Float64Array.of(1.25, 1, 0.5, 0, NaN))]).toEqual([0.8, 1, 2, 20, NaN]);
  });
});

test("a pump current is a wide-band front by its unit; a heater's or a rear sensor's is not", () => {
  expect(roleNamedBy("Front O2 B1S1 current", "mA").role).toBe("front-lambda");
  expect(roleNamedBy("O2 heater current B1S1", "mA").role).toBe("other");
  expect(roleNamedBy("Rear O2 B1S2 current", "mA").role).toBe("other");
});
