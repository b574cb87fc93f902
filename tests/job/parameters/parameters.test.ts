import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parametersInReplies } from "../../../src/job/parameters/parameter-replies.ts";
import { parametersInText } from "../../../src/job/parameters/parameter-text.ts";
import { catalystComplete, readinessOf } from "../../../src/job/parameters/readiness.ts";
import { numberAsTyped } from "../../../src/job/units/typed-number.ts";

const now = (text: string) => parametersInReplies(text, 0x41);

describe("scalings of services $01 and $02", () => {
  // Check values worked from the J1979 table as a general packet library codes it.
  test.each([
    ["41 0C 27 10", "engineSpeed", 2500, 0],
    ["41 10 04 B0", "airFlow", 12, 0.005],
    ["41 06 80", "shortTrim1", 0, 0.01],
    ["41 06 90", "shortTrim1", 12.5, 0.01],
    ["41 06 70", "shortTrim1", -12.5, 0.01],
    ["41 06 8A", "shortTrim1", 7.8125, 0.001],
    ["41 06 FF", "shortTrim1", 99.21875, 0.001],
    ["41 06 00", "shortTrim1", -100, 0.001],
    ["41 05 7B", "coolant", 83, 0],
    ["41 3C 1E 78", "catalystTemperature1", 740, 0.05],
    ["41 04 40", "load", 25.098, 0.01],
    ["41 0E 90", "timing", 8, 0],
    ["41 44 80 00", "wantedLambda", 1, 0.0007],
  ] as const)("%s: %s is %d", (text, id, value, within) => {
    expect(Math.abs(now(text).values[id]! - value)).toBeLessThanOrEqual(within);
  });
});

describe("a freeze frame out of bytes", () => {
  test("names its code and takes one item after the other", () => {
    const text = ["7E8 05 42 02 00 04 20", "7E8 05 42 0C 00 1F 40", "7E8 04 42 0D 00 4B", "7E8 05 42 03 00 02 00"].join(
      "\n",
    );
    expect(parametersInReplies(text, 0x42)).toEqual({
      values: { engineSpeed: 2000, roadSpeed: 75, fuelStatus1: 2, fuelStatus2: 0 },
      code: "P0420",
      monitorBytes: {},
      unread: [],
    });
  });

  test("holds several items in one reply of several frames", () => {
    const text = "7E8 10 0B 42 04 00 61 05 00\n7E8 21 7B 0C 00 1F 40 00 00";
    expect(parametersInReplies(text, 0x42).values).toMatchObject({ coolant: 83, engineSpeed: 2000 });
  });

  test("says what it does not know or what is cut short", () => {
    expect(parametersInReplies("42 0C 00 1F", 0x42).unread[0]!.says).toContain("Item 0C is cut short");
    expect(parametersInReplies("42 F1 00 1F", 0x42).unread[0]!.says).toContain("Item F1 is not known");
    fc.assert(
      fc.property(fc.array(fc.stringMatching(/^[0-9A-F]{2}$/), { maxLength: 40 }), (hex) => {
        parametersInReplies(`42 ${hex.join(" ")}`, 0x42);
      }),
    );
  });
});

describe("readiness", () => {
  // Bit order from memory: byte C 1 = fitted, byte D 1 = not complete; bit 0 catalyst, 5 oxygen sensors, 6 their heaters.
  test("tells lamp, count, and what is not complete", () => {
    const readiness = readinessOf(now("41 01 82 07 65 01").monitorBytes[1]!, 0x01)!;
    expect(readiness).toMatchObject({ lamp: true, codes: 2 });
    expect(readiness.items.filter(({ state }) => state === "not-complete").map(({ id }) => id)).toEqual(["catalyst"]);
    expect(readiness.items.filter(({ state }) => state === "not-fitted").map(({ id }) => id)).toEqual([
      "heated-catalyst",
      "secondary-air",
      "filter",
      "recirculation",
    ]);
    expect(catalystComplete(readiness)).toBe(false);
    expect(catalystComplete(readinessOf([0, 7, 0x65, 0], 0x41))).toBe(true);
  });

  test("says nothing where bytes are missing or the engine is another kind", () => {
    expect(readinessOf([0, 7, 0x65], 0x01)).toBeNull();
    expect(readinessOf([0, 0x0f, 0x65, 0], 0x01)).toBeNull();
    expect(catalystComplete(null)).toBeNull();
  });
});

describe("values out of text", () => {
  // Mile 1.609344 km, degF by definition, psi and inHg by NIST SP 811.
  test.each([
    ["Engine speed: 2,000 rpm", "engineSpeed", 2000],
    ["RPM 2000", "engineSpeed", 2000],
    ["Coolant 181.4 °F", "coolant", 83],
    ["Vehicle speed 46.6 mph", "roadSpeed", 74.995],
    ["Load = 38 %", "load", 38],
    ["short trim bank 2: -3,1 %", "shortTrim2", -3.1],
    ["Short term fuel trim bank 1 4.7%", "shortTrim1", 4.7],
    ["MAP 20 inHg", "manifoldPressure", 67.72778],
    ["Mass air flow 1.5 lb/min", "airFlow", 11.33981],
    ["Distance since codes cleared 120 miles", "distanceSinceClear", 193.12128],
  ] as const)("“%s”", (text, id, value) => {
    const { values, unread } = parametersInText(text);
    expect(unread).toEqual([]);
    expect(values[id]).toBeCloseTo(value, 3);
  });

  test("a whole sheet at once, with what is not understood named", () => {
    const { values, unread } = parametersInText(
      "Freeze frame\nFuel system 1: closed loop\nLoad 38 %\nWidget 12\nCoolant 5 kPa",
    );
    expect(values).toEqual({ fuelStatus1: 2, load: 38 });
    expect(unread.map(({ line }) => line)).toEqual([4, 5]);
  });
});

test("numbers are read as typed", () => {
  const cases = [
    ["2,000", 2000],
    ["2.000", 2000],
    ["0,125", 0.125],
    ["12,5", 12.5],
    ["1.234,5", 1234.5],
    ["1,234.5", 1234.5],
    ["−3.1", -3.1],
    ["1 234 567", 1234567],
    ["1'000", 1000],
    ["1,2,3", null],
    ["12a", null],
    ["", null],
  ] as const;
  for (const [text, value] of cases) expect([text, numberAsTyped(text)]).toEqual([text, value]);
});
