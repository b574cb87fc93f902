// Row groups are parts: golden/capture/groups.parquet, by an independent writer, against the numbers it was given.

import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { values } from "./open.ts";
import { expectSame } from "./parted.ts";

const bytes = new Uint8Array(readFileSync(new URL("../golden/capture/groups.parquet", import.meta.url)));
const frontAt = (i: number) =>
  i % 5000 === 7 ? Number.NaN : Math.round((0.45 + 0.4 * Math.sin((i % 500) / 80)) * 1000) / 1000;

test("Parquet of several row groups is what was written, whole and in parts", async () => {
  const capture = await expectSame(bytes, "a.parquet");
  expect(capture.channels.map(({ name }) => name)).toEqual(["Front O2", "Speed"]);
  const [front, speed] = capture.channels.map(values);
  expect(front!.length).toBe(100_000);
  expect(front!.findIndex((value, i) => !Object.is(value, frontAt(i)))).toBe(-1);
  expect(speed!.findIndex((value, i) => value !== 900 + (i % 77))).toBe(-1);
  expect(capture.remarks.some(({ text }) => text === "left out as they hold no numbers: note")).toBe(true);
});
