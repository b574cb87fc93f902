// The grey band of a sound catalyst, held against cars that are not of the program's own form: one of each in healthy-band.md.

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import { expect, test } from "vitest";
import { cutTo } from "../../src/app/healthy/cut.ts";
import { root } from "../../src/command/setup.mjs";
import { open } from "../capture/open.ts";
import { inBand } from "./healthy-band.ts";
import { judgedRecording } from "./recording.ts";

test("a sound car of the second plant stays in it for nine tenths of the time, and leaves it at no lift-off", async () => {
  const found = inBand((await judgedRecording("second", "healthy", 7)).capture)!;
  expect(found.isDrawn).toBe(true);
  expect(found.inside).toBeGreaterThan(0.9);
  expect([found.liftOffs > 2, found.left]).toEqual([true, 0]);
}, 120_000);

test("a car without a catalyst worth the name leaves it at every lift-off", async () => {
  const text = gunzipSync(readFileSync(join(root, "sample-traces/dead-catalyst-scope.csv.gz"))).toString();
  const found = inBand(await open(text, {}, "dead.csv"))!;
  expect(found.isDrawn).toBe(true);
  expect([found.liftOffs, found.left]).toEqual([3, 3]);
}, 120_000);

test("is cut to columns with their lowest and highest, and keeps what is not known", () => {
  const of = (...volts: number[]) => Float32Array.from(volts);
  const trace = {
    ...{ from: 10, step: 1, stores: [0.3, 3] as const },
    low: of(0.5, 0.25, 0.5, 0.5, NaN, NaN),
    high: of(0.75, 0.75, 1, 0.75, NaN, NaN),
    fitted: of(0.5, 0.625, 0.75, 0.5, NaN, NaN),
  };
  const { times, low, high, fitted } = cutTo(trace, { from: 10, to: 16 }, 3);
  expect([...times]).toEqual([11, 13, 15]);
  expect([...low]).toEqual([0.25, 0.5, NaN]);
  expect([...high]).toEqual([0.75, 1, NaN]);
  expect([fitted.dense, ...fitted.values]).toEqual([true, 0.5, 0.625, 0.5, 0.75, NaN, NaN]);
  const fine = cutTo(trace, { from: 11.5, to: 12.5 }, 100);
  expect([fine.fitted.dense, ...fine.fitted.times]).toEqual([false, 10.5, 11.5, 12.5, 13.5]);
});
