import { readFileSync } from "node:fs";
import { gzipSync, strToU8, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import type { Capture } from "../../src/capture/model/capture.ts";
import { countOf, timeAt } from "../../src/signal/series/series.ts";
import { hostile, seeds } from "./hostile.ts";
import { open, openBytes, problemOf } from "./open.ts";

const from = seeds(new Uint8Array(readFileSync(new URL("../golden/capture/log.parquet", import.meta.url)))); // a Buffer shares its slices

// `npm run long:hostile` tries 2,500, and what swells; every run of the tests a fixed share.
const isLong = process.env.HOSTILE_FILES !== undefined;
const count = Number(process.env.HOSTILE_FILES ?? 250);

/** What must hold of any capture, however broken its file. */
function mustHold(capture: Capture, label: string): void {
  expect(capture.channels.length, label).toBeGreaterThan(0);
  expect(new Set(capture.channels.map(({ id }) => id)).size, label).toBe(capture.channels.length);
  for (const { series } of capture.channels) {
    expect(series.samples.length, label).toBe(countOf(series.time));
    let last = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < series.samples.length; i++) {
      const time = timeAt(series.time, i);
      if (!(time > last && Number.isFinite(time))) throw new Error(`${label}: time ${time} after ${last}`);
      if (Math.abs(series.samples[i]!) === Number.POSITIVE_INFINITY) throw new Error(`${label}: an infinite sample`);
      last = time;
    }
  }
}

/** What engines say of programs, not of files. */
const ofLanguage = /Cannot |is not a|undefined|null|Invalid|out of (range|bounds)|offset|NaN|must be/;

describe("broken files", () => {
  test(`each of ${count} ends in a sound capture or a problem`, { timeout: 1_200_000 }, async () => {
    const ends = { capture: 0, problem: 0 };
    for (let i = 0; i < count; i++) {
      const outcome = await openBytes(hostile(i, from), {}, `file ${i}`);
      if (outcome.ok) mustHold(outcome.value, `file ${i}`);
      else {
        expect(outcome.problem.remedy, `file ${i}`).not.toBe("");
        expect(outcome.problem.what, `file ${i}`).not.toMatch(ofLanguage);
      }
      ends[outcome.ok ? "capture" : "problem"]++;
    }
    expect(ends.capture).toBeGreaterThan(count / 10);
    expect(ends.problem).toBeGreaterThan(count / 10);
  });

  // Of the first no group says how many rows it has, of the second a list is missing.
  test.each([958_619, 958_629])("a Parquet file that lost a part is told as that: %i", async (seed) => {
    const { code, what } = await problemOf(hostile(seed, from));
    expect(code).toBe("damaged");
    expect(what).not.toMatch(ofLanguage);
  });

  test("unbroken they open", async () => {
    for (const [i, seed] of from.entries()) {
      const outcome = await openBytes(seed, i === 7 ? { member: "a.csv" } : {});
      expect(outcome.ok ? "opens" : outcome.problem, `file ${i}`).toBe("opens");
    }
  });

  test.runIf(isLong)("a bomb of 600 MB in half a megabyte is refused", async () => {
    const megabytes = gzipSync(new Uint8Array(64 * 1024 * 1024).fill(48));
    const bomb = new Uint8Array(megabytes.length * 9);
    for (let i = 0; i < 9; i++) bomb.set(megabytes, i * megabytes.length);
    expect((await problemOf(bomb)).code).toBe("too-large");
  });

  test("a zip that claims 2 GB holds what it holds", async () => {
    const zip = zipSync({ "a.csv": strToU8("Time (s),Front (V)\n0,1\n1,2\n2,3\n") });
    const view = new DataView(zip.buffer);
    for (let at = 0; at + 46 < zip.length; at++)
      if (view.getUint32(at, true) === 0x02014b50) view.setUint32(at + 24, 2 ** 31 - 1, true);
    expect((await open(zip)).channels[0]!.series.samples.length).toBe(3);
  });

  test.runIf(isLong)("a line of 50 MB is passed over or refused", async () => {
    const text = new Uint8Array(50 * 1024 * 1024).fill(48);
    text.set(strToU8("Time (s),Front (V)\n0,1\n1,2\n2,3\n"));
    const capture = await open(text);
    expect(capture.channels[0]!.series.samples.length).toBe(3);
    text[34] = 0x22;
    expect((await openBytes(text)).ok).toBe(true);
    expect((await problemOf(new Uint8Array(50 * 1024 * 1024).fill(48))).code).toBe("no-numbers");
  });
});
