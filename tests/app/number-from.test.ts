// Numbers as people type them: what may mean two numbers is refused with its reason, never taken for one of them.

import { expect, test } from "vitest";
import { numberIn } from "../../src/app/parts/number-from.ts";
import { numberFrom } from "../../src/signal/written/typed-number.ts";

test.each([
  ["2,5", 2.5],
  ["2.500", 2.5],
  ["0,125", 0.125],
  ["12,3456", 12.3456],
  [" −1,5 ", -1.5],
  ["2500", 2500],
  ["2,500", null],
  ["-12,000", null],
  ["1,234,567", null],
  ["1e999", null],
  ["two", null],
  ["", null],
])("%j is read as %j", (text, value) => {
  expect(numberFrom(text)).toBe(value);
});

test("what is refused stays in its field with the reason; what is right clears it", () => {
  let [said, shown] = ["", 0];
  const field = {
    value: "2,500",
    setCustomValidity(text: string) {
      said = text;
    },
    reportValidity() {
      shown++;
      return false;
    },
  };
  expect(numberIn(field)).toBeUndefined();
  expect([field.value, shown]).toEqual(["2,500", 1]);
  expect(said).toContain("2.500 or 2500");
  field.value = "0";
  expect(numberIn(field, (value) => (value === 0 ? "Not zero." : null))).toBeUndefined();
  expect(said).toBe("Not zero.");
  field.value = "2.5";
  expect([numberIn(field), said]).toEqual([2.5, ""]);
  field.value = " ";
  expect([numberIn(field), said]).toEqual([null, ""]);
});
