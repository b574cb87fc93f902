// Columns that hold how long something took, without a unit: none is the clock of the rows, however it runs.

import { describe, expect, test } from "vitest";
import { open, problemOf } from "./open.ts";

const rows = (row: (i: number) => string) => Array.from({ length: 60 }, (_, i) => row(i)).join("\n");
/** Rises all the way, in steps finer than the clock's. */
const rising = (i: number) => (3 + 0.013 * i * i).toFixed(3).replace(".", ",");
const wandering = (i: number) => (3 + Math.sin(i)).toFixed(3).replace(".", ",");
const volts = (i: number) => `0,4${i % 9}`;
const tenths = (i: number) => (Math.floor(i / 2) / 10).toFixed(1).replace(".", ",");
const clock = (i: number) => `10:00:${String(Math.floor(i / 2)).padStart(2, "0")}`;

const spans = ["Ladezeit", "Umschaltzeit", "Schaltzeit", "Einspritzzeit", "Reaktionszeit", "Totzeit"];

describe.each(spans)("%s", (name) => {
  test.each([
    ["t [s]", tenths],
    ["Zeit", tenths],
    ["Uhrzeit", clock],
  ])("is a channel beside %s", async (title, at) => {
    const capture = await open(`${title};${name};Vorkat V\n${rows((i) => `${at(i)};${rising(i)};${volts(i)}`)}\n`);
    expect(capture.channels.map((one) => one.name)).toEqual([name, "Vorkat V"]);
  });

  test.each([
    ["that rises", rising],
    ["that wanders", wandering],
  ])("%s is no clock where there is none, and leaves a rate its say", async (_, span) => {
    const text = `${name};Vorkat V;Nachkat V\n${rows((i) => `${span(i)};${volts(i)};0,6`)}\n`;
    expect(await problemOf(text)).toMatchObject({ code: "no-time" });
    const capture = await open(text, { rate: 10 });
    expect(capture.channels.map((one) => one.name)).toEqual([name, "Vorkat V", "Nachkat V"]);
    expect(capture.channels[0]!.series.time).toMatchObject({ kind: "even", step: 0.1, count: 60 });
  });
});

test("a name that may be a span or a clock is the clock where nothing plainer is there", async () => {
  const body = rows((i) => `${tenths(2 * i)};${rising(i)};${volts(i)}`);
  const alone = await open(`Laufzeit;Wert;Vorkat V\n${body}\n`);
  expect(alone.channels.map((one) => one.name)).toEqual(["Wert", "Vorkat V"]);
  const beside = await open(`Zeit;Laufzeit;Vorkat V\n${rows((i) => `${tenths(i)};${rising(i)};${volts(i)}`)}\n`);
  expect(beside.channels.map((one) => one.name)).toEqual(["Laufzeit", "Vorkat V"]);
});
