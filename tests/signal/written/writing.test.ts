// Units as people read them; conversions by NIST SP 811, appendix B.

import { afterEach, describe, expect, test } from "vitest";
import { shownLevelTicks } from "../../../src/drawing/scale.ts";
import { recordingGuide } from "../../../src/exhaust/findings/guide.ts";
import { defaultLimits, describeLimit, type LimitName, type Limits } from "../../../src/exhaust/terms/limits.ts";
import { numberAsTyped } from "../../../src/job/units/typed-number.ts";
import { measured } from "../../../src/signal/numbers/reading.ts";
import { dateText } from "../../../src/signal/written/date-text.ts";
import { formatReading, formatValue } from "../../../src/signal/written/reading-text.ts";
import { plainWriting, showUnit, storedUnit, type Writing, writeAs } from "../../../src/signal/written/writing.ts";

afterEach(() => writeAs(plainWriting));
const choose = () =>
  writeAs({ ...plainWriting, speed: "mph", temperature: "degF", pressure: "inHg", airFlow: "lb/min" });

describe("units chosen once", () => {
  test.each([
    [100, "km/h", 0.1, "62.14\u00a0mph"],
    [100, "degC", 1, "212\u00a0°F"],
    [101.325, "kPa", 0.1, "29.92\u00a0inHg"],
    [100, "g/s", 0.1, "13.23\u00a0lb/min"],
    [0.45, "V", 0.01, "0.45\u00a0V"],
  ])("%d %s", (value, unit, step, text) => {
    choose();
    expect(formatValue(value, unit, step)).toBe(text);
  });

  test("readings with their bounds follow, and stored values do not", () => {
    const coolant = measured(90, [85, 95], "degC");
    choose();
    // 90 °C is 194 °F, 85 is 185, 95 is 203.
    expect(formatReading(coolant)).toEqual({ value: "194\u00a0°F", bounds: "185 … 203" });
    expect(showUnit("degC")).toBe("°F");
    expect(storedUnit("degC")).toBe("°C");
    writeAs(plainWriting);
    expect(formatReading(coolant)).toEqual({ value: "90\u00a0°C", bounds: "85 … 95" });
  });

  test("scales are round in the unit that is shown", () => {
    choose();
    const { values, step, written } = shownLevelTicks(0, 100, 4, "km/h");
    expect(values.map(written).map(Math.round)).toEqual([0, 20, 40, 60]);
    expect(step).toBe(20);
  });
});

describe("decimal mark and dates chosen once", () => {
  // The judge is the browser's own table of languages (Unicode CLDR, by ECMA-402).
  test.each([
    ["en-GB", "4 May 2026"],
    ["en-US", "May 4, 2026"],
    ["de-DE", "04.05.2026"],
    ["fr-FR", "04/05/2026"],
    ["sv-SE", "2026-05-04"],
  ] as const)("%s", (language, dates) => {
    const decimal = (1.5).toLocaleString(language).charAt(1) as Writing["decimal"];
    writeAs({ ...plainWriting, decimal, dates });
    const asThere = new Intl.DateTimeFormat(language, /[A-Z]/i.test(dates) ? { dateStyle: "medium" } : twoDigits);
    expect(dateText("2026-05-04")).toBe(asThere.format(new Date(2026, 4, 4)));
    expect(dateText("2026-05-04T09:30:12")).toBe(`${dateText("2026-05-04")}, 09:30`);
    expect(formatValue(0.455, "V")).toBe(`${(0.455).toLocaleString(language)}\u00a0V`);
    expect(formatReading(measured(1.42, [1.39, 1.45], "Hz")).bounds).toBe(`1${decimal}39 … 1${decimal}45`);
  });

  const defaultNumbers = Object.fromEntries(
    Object.entries(defaultLimits).map(([name, { value }]) => [name, value]),
  ) as unknown as Limits;
  const twoDigits = { day: "2-digit", month: "2-digit", year: "numeric" } as const;

  test("a typed number is read with either mark", () => {
    expect([numberAsTyped("1,5"), numberAsTyped("1.5")]).toEqual([1.5, 1.5]);
  });

  test("fixed words with numbers in them, in guide, limits and labels, too", () => {
    writeAs({ ...plainWriting, temperature: "degF", decimal: "," });
    // 500 °C is 932 °F, 80 is 176 (NIST SP 811, B.8).
    const guide = recordingGuide([]);
    expect(guide.cautions.join(" ")).toContain("932\u00a0°F");
    expect(guide.steps.flatMap(({ what }) => what).join(" ")).toContain("above 176\u00a0°F");
    const { cautions, connections, steps } = guide;
    const limits = Object.keys(defaultLimits).map((name) => describeLimit(name as LimitName, defaultNumbers));
    for (const line of [...cautions, ...connections, ...steps.flatMap(({ what }) => what), ...limits]) {
      expect(line).not.toMatch(/°C|\d\.\d/);
    }
  });
});

test.each(["constructor", "toString", "__proto__"])("a unit may be any text and stays it: %s", (unit) => {
  expect(showUnit(unit)).toBe(unit);
  expect(formatValue(3, unit)).toBe(`3\u00a0${unit}`);
});
