// Times as odd recorders write them, and columns that are none.

import { describe, expect, test } from "vitest";
import { csv, lasts, says, sensors, two, volts } from "../../logs/made.ts";
import { openBytes } from "../open.ts";

const clock = (seconds: number, mark = ":") =>
  [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, Math.floor(seconds) % 60].map(two).join(mark);
const half = (seconds: number) => ((Math.floor(seconds / 3600) + 11) % 12) + 1;

const open = (header: string, count: number, row: (i: number) => (string | number)[], choices = {}, mark = ",") =>
  openBytes(
    new TextEncoder().encode(
      csv(
        header,
        Array.from({ length: count }, (_, i) => row(i)),
        mark,
      ),
    ),
    choices,
  );
const opened = async (...call: Parameters<typeof open>) => {
  const read = await open(...call);
  if (!read.ok) throw new Error(read.problem.what);
  return read.value;
};
const refusal = async (...call: Parameters<typeof open>) => {
  const read = await open(...call);
  return read.ok ? "read" : read.problem;
};

describe("a clock in another dress", () => {
  test.each<[name: string, cell: (i: number) => string]>([
    ["ISO 8601's duration", (i) => `PT${Math.floor(i / 600)}M${((i / 10) % 60).toFixed(1)}S`],
    ["letters for the units", (i) => `0h${two(Math.floor(i / 600))}m${((i / 10) % 60).toFixed(1)}s`],
    ["square brackets", (i) => `[${clock(36_000 + i / 10)}.${i % 10}]`],
    ["a date in square brackets", (i) => `[28/12/2026 ${clock(36_000 + i / 10)}.${i % 10}]`],
    ["a stroke behind the date", (i) => `2026/12/28-${clock(36_000 + i / 10)}.${i % 10}`],
  ])("%s", async (_, cell) => {
    expect(lasts(await opened(`Time,${sensors}`, 700, (i) => [cell(i), ...volts(i / 10)]), 69.9)).toBe(true);
  });

  test("whole seconds in a unit of another script are no counter of rows", async () => {
    const capture = await opened(`Время (с),${sensors}`, 90, (i) => [i, ...volts(i)]);
    expect(lasts(capture, 89)).toBe(true);
  });

  test("that is not known is told, where a column is named for the time", async () => {
    const problem = await refusal(`Time,${sensors}`, 90, (i) => [`tick ${i}`, ...volts(i)]);
    expect(problem).toMatchObject({
      code: "no-time",
      what: expect.stringContaining("“tick 0” in it is not understood"),
    });
  });
});

test("a second column named like a time is left out, and that is said", async () => {
  const capture = await opened(`Run time (s),${sensors},Lamp time (min)`, 90, (i) => [i, ...volts(i), 0]);
  expect(capture.channels.map(({ role }) => role)).toEqual(["front-o2", "rear-o2"]);
  expect(says(capture, /left out, as Run time is the time: Lamp time/)).toBe(true);
});

describe("a clock of whole seconds beside its parts", () => {
  const parts = (i: number) => (i % 20) * 50;
  test.each<[name: string, header: string, cells: (i: number) => (string | number)[]]>([
    ["milliseconds", "Time,Millis", (i) => [clock(36_000 + i / 20), parts(i)]],
    ["a date before it", "Date,Time,Milliseconds", (i) => ["2026-12-28", clock(36_000 + i / 20), parts(i)]],
    ["a count of seconds", "Time (s),ms", (i) => [Math.floor(i / 20), parts(i)]],
    ["past midnight", "Time,ms", (i) => [clock((86_395 + i / 20) % 86_400), parts(i)]],
    ["a date in the same cell", "Stamp,us", (i) => [`28.12.2026 ${clock(36_000 + i / 20)}`, 1000 * parts(i)]],
  ])("is put together: %s", async (_, header, cells) => {
    const capture = await opened(`${header},${sensors}`, 200, (i) => [...cells(i), ...volts(i / 20)]);
    expect(lasts(capture, 199 / 20)).toBe(true);
    expect(says(capture, /share one stamp|hole/)).toBe(false);
    expect(capture.channels.length).toBe(2);
  });

  test("is left alone where what stands beside it is none of its parts", async () => {
    const capture = await opened(`Time,ms,${sensors}`, 200, (i) => [clock(36_000 + i), 3 + (i % 7), ...volts(i)]);
    expect(lasts(capture, 199)).toBe(true);
  });
});

describe("a time", () => {
  // Units of 100 ns since 1601-01-01 are 11644473600 s before 1970 (RFC 4120's NT times, [MS-DTYP] 2.3.3); from year 1, 62135596800 s.
  // Julian day 2440587.5 is 1970-01-01T00:00Z (Explanatory Supplement to the Astronomical Almanac).
  const at = 1_764_460_800;
  test.each<[name: string, header: string, step: number, cell: (i: number) => string]>([
    [
      "in 100 ns since 1601",
      "Filetime",
      0.25,
      (i) => `${BigInt(at + 11_644_473_600) * 10_000_000n + BigInt(i) * 2_500_000n}`,
    ],
    [
      "in 100 ns since the year 1",
      "Ticks",
      0.25,
      (i) => `${BigInt(at + 62_135_596_800) * 10_000_000n + BigInt(i) * 2_500_000n}`,
    ],
    ["in Julian days", "JD", 1, (i) => (2_440_587.5 + (at + i) / 86_400).toFixed(7)],
    ["packed with decimals, a minute full far below", "Time", 0.1, (i) => `${clock(37_080 + i / 10, "")}.${i % 10}00`],
    ["in whole seconds at a little more than one row in each", "Zeit", 0.93, (i) => clock(36_000 + 0.93 * i)],
    ["in seconds past a minute, which is no packed clock", "Messzeit", 0.09, (i) => (0.09 * (i + 1)).toFixed(2)],
    ["date and clock without marks, a blank between", "Time", 1, (i) => `20260304 ${clock(36_000 + i, "")}`],
    ["packed without its zero in front", "Time", 1, (i) => String(Number(clock(9 * 3600 + 3500 + i, "")))],
    [
      "with p. m. behind it",
      "Hora",
      1,
      (i) => `${half(43_100 + i)}:${clock(43_100 + i).slice(3)} ${43_100 + i < 43_200 ? "a" : "p"}. m.`,
    ],
    ["with a month named in German", "Zeit", 1, (i) => `4. März 2026 ${clock(43_200 + i)}`],
    ["with a month named in front", "Time", 1, (i) => `March 4, 2026 ${clock(43_200 + i)}`],
    ["with the year behind the clock", "Time", 1, (i) => `Wed Mar 4 ${clock(43_200 + i)} 2026`],
    ["under a name that ends in time", "Laufzeit", 0.5, (i) => (i / 2).toFixed(1)],
  ])("%s", async (_, header, step, cell) => {
    const n = 900;
    const capture = await opened(
      `${header};${sensors.replace(",", ";")}`,
      n,
      (i) => [cell(i), ...volts(i / 2)],
      {},
      ";",
    );
    expect(capture.channels.map(({ role }) => role)).toEqual(["front-o2", "rear-o2"]);
    expect(lasts(capture, (n - 1) * step)).toBe(true);
    expect(says(capture, /order of day and month|hole/)).toBe(false);
  });

  test("in milliseconds is no packed clock, though its numbers could be one", async () => {
    const capture = await opened(`Time (ms),${sensors}`, 100, (i) => [100_000 + 50 * i, ...volts(i / 20)]);
    expect(lasts(capture, 4.95)).toBe(true);
  });

  test("whose rows were shuffled has the unit of its true steps", async () => {
    const capture = await opened(`Time,${sensors}`, 200, (i) => [(i * 77) % 200, ...volts(i)]);
    expect(lasts(capture, 199)).toBe(true);
  });

  test("that counts down goes back for the one that goes on", async () => {
    const capture = await opened(`Remaining time (s),Time (s),${sensors}`, 100, (i) => [99 - i, i, ...volts(i)]);
    expect(says(capture, /turned round/)).toBe(false);
    expect(lasts(capture, 99)).toBe(true);
  });
});

describe("no time", () => {
  test.each<[header: string, cell: (i: number) => string]>([
    ["Boost", (i) => (0.1 + i * 0.01).toFixed(2)],
    ["Kms", (i) => String(48_000 + Math.floor(i / 10))],
    ["Längengrad", (i) => (8 + i * 0.0003).toFixed(5)],
    ["Wax level", (i) => (i * 0.2).toFixed(1)],
  ])("is a quantity with the name of its own %s", async (header, cell) => {
    expect(await refusal(`${header},${sensors}`, 150, (i) => [cell(i), ...volts(i)])).toMatchObject({
      code: "no-time",
    });
  });

  test("is one of several temperatures named T", async () => {
    const row = (i: number) => [(60 + i * 0.02).toFixed(2), (40 + i * 0.01).toFixed(2), ...volts(i)];
    expect(await refusal(`T,T2,${sensors}`, 150, row)).toMatchObject({ code: "no-time" });
  });

  test.each([
    ["Start time", "12:00:00"],
    ["Time with lamp on (min)", "0"],
  ])("is a column that stands still: it is named, and a rate opens the file", async (header, cell) => {
    const row = (i: number) => [...volts(i), cell];
    expect(await refusal(`${sensors},${header}`, 150, row)).toMatchObject({
      code: "no-time",
      what: expect.stringContaining("does not move"),
      remedy: expect.stringContaining("--rate"),
    });
    expect(lasts(await opened(`${sensors},${header}`, 150, row, { rate: 2 }), 74.5)).toBe(true);
  });

  test("is a column that was named and is not there", async () => {
    const problem = await refusal(`Time (s),${sensors}`, 50, (i) => [i, ...volts(i)], { timeColumn: "Uhr" });
    expect(problem).toMatchObject({ code: "wrong-choice", remedy: expect.stringContaining("O2 B1S1") });
  });
});

test("a temperature that begins with T and stands still brings no time for the column beside it", async () => {
  const rows = Array.from({ length: 60 }, (_, i) => `${i / 5},${800 + (i % 9)},${i % 2 ? 0.8 : 0.1},85.0,0.7`);
  const text = `Time,RPM,O2 B1S1,T_CLT,O2 B1S2\n${rows.join("\n")}\n`;
  const read = await openBytes(new TextEncoder().encode(text));
  if (!read.ok) throw new Error(read.problem.what);
  expect(read.value.channels.map(({ role }) => role)).toEqual(["engine-speed", "front-o2", "coolant-temp", "rear-o2"]);
});
