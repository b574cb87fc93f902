// Units as people read them; conversions by NIST SP 811, appendix B.

import { afterEach, describe, expect, test } from "vitest";
import { formatReading, formatValue, showUnit, storedUnit } from "../../src/drawing/format.ts";
import { shownLevelTicks } from "../../src/drawing/scale.ts";
import { chooseUnits, siUnits } from "../../src/drawing/shown-units.ts";
import { measured } from "../../src/signal/numbers/reading.ts";

afterEach(() => chooseUnits(siUnits));
const choose = () => chooseUnits({ speed: "mph", temperature: "degF", pressure: "inHg", airFlow: "lb/min" });

describe("units chosen once", () => {
  test.each([
    [100, "km/h", 0.1, "62.14 mph"],
    [100, "degC", 1, "212 °F"],
    [101.325, "kPa", 0.1, "29.92 inHg"],
    [100, "g/s", 0.1, "13.23 lb/min"],
    [0.45, "V", 0.01, "0.45 V"],
  ])("%d %s", (value, unit, step, text) => {
    choose();
    expect(formatValue(value, unit, step)).toBe(text);
  });

  test("readings with their bounds follow, and stored values do not", () => {
    const coolant = measured(90, [85, 95], "degC");
    choose();
    // 90 °C is 194 °F, 85 is 185, 95 is 203.
    expect(formatReading(coolant)).toEqual({ value: "194 °F", bounds: "185 … 203" });
    expect(showUnit("degC")).toBe("°F");
    expect(storedUnit("degC")).toBe("°C");
    chooseUnits(siUnits);
    expect(formatReading(coolant)).toEqual({ value: "90 °C", bounds: "85 … 95" });
  });

  test("scales are round in the unit that is shown", () => {
    choose();
    const { values, step, written } = shownLevelTicks(0, 100, 4, "km/h");
    expect(values.map(written).map(Math.round)).toEqual([0, 20, 40, 60]);
    expect(step).toBe(20);
  });
});
