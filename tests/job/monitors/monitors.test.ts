import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { monitorOf } from "../../../src/job/monitors/monitor-names.ts";
import { monitorsInReplies } from "../../../src/job/monitors/monitor-replies.ts";
import { scaled, scalingOf } from "../../../src/job/monitors/scaling.ts";

const one = (text: string) => {
  const { results, unread } = monitorsInReplies(text);
  expect(unread).toEqual([]);
  expect(results).toHaveLength(1);
  return results[0]!;
};

describe("units and scalings", () => {
  // Check values worked from the J1979 table as a general packet library codes it.
  test.each([
    [0x0a, 0x0e66, 0.44969, 1e-4, "V"],
    [0x20, 0x0100, 1, 5e-4, "ratio"],
    [0x20, 0x00c0, 0.75, 5e-4, "ratio"],
    [0x16, 0x1770, 560, 0.1, "degC"],
    [0x83, 0xff9c, -1, 0.001, "raw"],
    [0x05, 0x4000, 0.4997, 5e-4, "raw"],
    [0x30, 0xffff, 100, 0.01, "%"],
    [0x10, 0x0064, 0.1, 1e-9, "s"],
    [0x35, 0x0064, 1, 1e-9, "s"],
    [0x39, 0x8000, 0, 0.001, "%"],
  ])("$%x raw %i is %d", (id, raw, value, within, unit) => {
    expect(Math.abs(scaled(id, raw)! - value)).toBeLessThanOrEqual(within);
    expect(scalingOf(id)!.unit).toBe(unit);
  });

  test("an ID that is not in the table is not guessed", () => expect(scalingOf(0x7e)).toBeNull());
});

describe("results on CAN", () => {
  // Worked records: closed form from the field order and the scaling table.
  test("name sensor, test, value and limits", () => {
    expect(one("01 05 10 00 46 00 00 00 64")).toMatchObject({
      monitor: "Oxygen sensor, bank 1 sensor 1",
      test: "rich-to-lean switch time",
      value: 0.07,
      low: null,
      high: 0.1,
      unit: "s",
      outcome: "passed",
    });
    expect(one("46 01 07 0B 00 5A 00 00 00 C8")).toMatchObject({
      test: "lowest voltage",
      value: 0.09,
      high: 0.2,
      unit: "V",
    });
  });

  test("give the catalyst its margin, and leave what the maker defines to the maker", () => {
    const passed = one("21 80 20 00 C0 00 00 01 00");
    expect(passed).toMatchObject({ monitor: "Catalyst, bank 1", value: 0.75, high: 1, outcome: "passed", margin: 25 });
    expect(passed.test).toBe("test $80: only the maker's data tells");
    expect(one("46 21 80 20 01 20 00 00 01 00")).toMatchObject({ value: 1.125, outcome: "failed", margin: -12.5 });
  });

  test("are taken out of several frames, catalysts first", () => {
    const text = ["7E8 10 13 46 01 05 10 00 46", "7E8 21 00 00 00 64 21 80 20", "7E8 22 00 C0 00 00 01 00 00"].join(
      "\n",
    );
    expect(monitorsInReplies(text).results.map(({ monitor }) => monitor)).toEqual([
      "Catalyst, bank 1",
      "Oxygen sensor, bank 1 sensor 1",
    ]);
  });

  test("a lowest limit is the live one where it is not zero", () => {
    expect(one("21 81 20 00 C0 00 80 FF FF")).toMatchObject({ low: 0.5, high: null, outcome: "passed", margin: 50 });
  });

  test("zeros all over are a test that has not run", () => {
    expect(one("21 80 20 00 00 00 00 00 00")).toMatchObject({ outcome: "not-run", margin: null });
  });

  test("an unknown unit stays raw and says so", () => {
    expect(one("46 21 80 7E 00 C0 00 00 01 00")).toMatchObject({ value: 192, unit: "raw", note: "unit $7E unknown" });
  });

  test("a map of what is supported is no result", () => {
    expect(monitorsInReplies("46 00 C0 00 00 01")).toEqual({ results: [], unread: [] });
  });
});

describe("results of older buses", () => {
  // From memory: bit 7 of the component says that the limit is the lowest allowed.
  test.each([
    ["46 01 01 00 40 00 80", "passed", null, 128, 50],
    ["46 01 81 00 40 00 80", "failed", 128, null, -50],
  ])("%s %s", (text, outcome, low, high, margin) => {
    expect(one(text)).toMatchObject({
      value: 64,
      outcome,
      low,
      high,
      margin,
      unit: "raw",
      note: "byte order from memory",
    });
  });

  test("oxygen sensor tests have their own scalings", () => {
    expect(one("45 05 01 19 00 32")).toMatchObject({ value: 0.1, high: 0.2, unit: "s", outcome: "passed" });
    expect(one("45 0A 02 19 00 FF")).toMatchObject({ monitor: "Oxygen sensor, bank 1 sensor 2", value: 1, unit: "s" });
    expect(one("45 01 10 5A")).toMatchObject({
      monitor: "Oxygen sensor, bank 2 sensor 1",
      value: 0.45,
      unit: "V",
      outcome: "constant",
      margin: null,
    });
    expect(one("45 30 01 19 00 32")).toMatchObject({ unit: "raw", test: "test $30: only the maker's data tells" });
  });
});

test("monitors have names by bank, sensor and cylinder", () => {
  expect([0x0c, 0x22, 0x46, 0xa2, 0x99, 0xf0].map((id) => monitorOf(id).name)).toEqual([
    "Oxygen sensor, bank 3 sensor 4",
    "Catalyst, bank 2",
    "Oxygen sensor heater, bank 2 sensor 2",
    "Misfire, cylinder 1",
    "NOx catalyst, bank 2",
    "Monitor $F0",
  ]);
});

test("what is cut short is said, and nothing throws", () => {
  expect(monitorsInReplies("46 21 80 20 00").unread[0]!.says).toContain("Not a whole result");
  fc.assert(
    fc.property(fc.array(fc.stringMatching(/^[0-9A-F]{2}$/), { maxLength: 40 }), (hex) => {
      for (const head of ["46", "45", "7E8"]) monitorsInReplies(`${head} ${hex.join(" ")}`);
    }),
  );
});
