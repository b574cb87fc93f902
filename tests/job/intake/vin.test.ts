import { describe, expect, test } from "vitest";
import { checkDigitOf, vinTold } from "../../../src/job/intake/vin.ts";

describe("the check digit of a VIN", () => {
  // Seventeen ones: every value is 1, so the sum is that of the weights, 89, and 89 mod 11 is 1 (49 CFR 565, closed form).
  test("fits seventeen ones", () => expect(vinTold("11111111111111111").told).toBe("fits"));

  // Worked example widely printed beside the rule: 1M8GDM9AXKP042788, remainder 10, shown as X. From memory.
  test("is X for a remainder of ten", () => {
    expect(checkDigitOf("1M8GDM9AXKP042788")).toBe("X");
    expect(vinTold("1m8gdm9axkp042788").told).toBe("fits");
    expect(vinTold("1M8GDM9A1KP042788")).toMatchObject({
      told: "does-not-fit",
      says: expect.stringContaining("X would fit"),
    });
  });

  test("is told for North America only", () => {
    expect(vinTold("W1111111111111111").told).toBe("no-check-digit");
  });

  test("one wrong character of North America is found, whatever its place, but for letters of equal value", () => {
    const vin = "11111111111111111";
    for (let i = 0; i < 17; i++) {
      if (i === 8) continue;
      expect(vinTold(`${vin.slice(0, i)}2${vin.slice(i + 1)}`).told).toBe("does-not-fit");
    }
  });

  test.each([
    ["", "empty"],
    ["1M8GDM9AXKP04278", "wrong-length"],
    ["1M8GDM9AXKPO42788", "wrong-letter"],
    ["1M8GDM9A XKP-042788", "fits"],
  ])("of “%s” is %s", (text, told) => expect(vinTold(text).told).toBe(told));
});
