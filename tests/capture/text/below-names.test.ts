// Rows between the names and the numbers: limits, codes, kinds, settings, units in whatever order, with or without a word in front.

import { describe, expect, test } from "vitest";
import { csv, says, volts } from "../../logs/made.ts";
import { channel, open, times, values } from "../open.ts";

const rows = Array.from({ length: 60 }, (_, i) => [(i / 20).toFixed(2), ...volts(i / 20), 800 + (i % 9)]);
const names = "Elapsed,Front probe,Rear probe,Engine speed";

/** The same channels, samples and stamps, however the rows below the names look. */
async function isRead(head: string, body = rows) {
  const capture = await open(csv(head, body));
  expect(capture.channels.map(({ name, role }) => `${name} = ${role}`)).toEqual([
    "Front probe = front-o2",
    "Rear probe = rear-o2",
    "Engine speed = engine-speed",
  ]);
  const stamps = times(channel(capture, "rear-o2")).map((time) => Number(time.toFixed(6)));
  expect(stamps).toEqual(rows.map((_, i) => i / 20));
  expect(values(channel(capture, "engine-speed"))).toEqual(rows.map((row) => Number(row[3])));
  return capture;
}

describe("between names and numbers may stand", () => {
  test.each([
    ["the least and the most", "s,V,V,1/min\nleast,0,0,0\nmost,1.2,1.2,7000"],
    ["the most alone", "most,1.2,1.2,7000"],
    ["factors of one", "Factor,1,1,1"],
    ["both in a cell", "s,V,V,1/min\n0 to 99,0 to 1.2,0 to 1.2,0 to 7000"],
    ["codes", ",$14,$15,$0C\ns,V,V,1/min"],
    ["codes that are numbers", ",0114,0115,010C\ns,V,V,1/min"],
    ["kinds of number", "real,real,real,whole\ns,V,V,1/min"],
    ["other names of less meaning", "t,up,down,crank\ns,V,V,1/min"],
    ["settings", "s,V,V,1/min\nGain,2.5,x,"],
    ["lines of settings", "s,V,V,1/min\nBay: 4\nGain: 3"],
  ])("%s", async (_, between) => {
    const capture = await isRead(`${names}\n${between}`);
    expect(says(capture, /between names and numbers, and no samples: the lines that begin with/)).toBe(true);
  });

  test("units alone, below a blank line", async () => {
    const capture = await isRead(`${names}\n\ns,mV,mV,1/min`, rows);
    expect(channel(capture, "front-o2").fileUnit).toBe("mV");
    expect(says(capture, /between names/)).toBe(false);
  });

  test("limits of channels whose names say nothing", async () => {
    const capture = await open(
      csv(
        "Elapsed,Red,Blue\nleast,0,0\nmost,1.2,1.2",
        rows.map((row) => row.slice(0, 3)),
      ),
    );
    expect(capture.channels.map(({ name }) => name)).toEqual(["Red", "Blue"]);
  });

  test("numbers that count the channels: they are their names", async () => {
    const capture = await open(
      csv(
        "Elapsed,1,2",
        rows.map((row) => row.slice(0, 3)),
      ),
    );
    expect(capture.channels.map(({ name }) => name)).toEqual(["1", "2"]);
  });
});

describe("rows of numbers without a word below the names are no samples where the time stands back behind them", () => {
  test.each([
    [
      "limits",
      [
        ["0", "0", "0", 0],
        ["999", "1.2", "1.2", 7000],
      ],
    ],
    ["a scale", [["1", "0.001", "0.001", 0.25]]],
  ])("%s", async (_, stray) => {
    const capture = await isRead(`${names}\ns,V,V,1/min`, [...(stray as typeof rows), ...rows]);
    expect(says(capture, /limits or scales, and no samples/)).toBe(true);
  });

  test("but not where they go on as the others do: there a recording begins again", async () => {
    const ahead = [10, 10.05].map((time) => [time.toFixed(2), ...volts(time), 805]);
    const capture = await open(csv(`${names}\ns,V,V,1/min`, [...ahead, ...rows]));
    expect(values(channel(capture, "engine-speed")).length).toBeGreaterThan(rows.length);
    expect(says(capture, /time starts again/)).toBe(true);
  });
});
