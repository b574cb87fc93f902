// The command line as a script would call it: spawned for real, its exit codes, its JSON, its sentences.

import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { call } from "./call.ts";

const folder = mkdtempSync(join(tmpdir(), "measure-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** From `folder`, as a user would who stands there. */
const measure = (...words: string[]) => call("measure", words, folder);

function file(name: string, lines: readonly string[]): string {
  writeFileSync(join(folder, name), `${lines.join("\n")}\n`);
  return name;
}

/** Front: square of 0.1 and 0.9 V at 1 Hz; rear: the same 0.15 s later. 100 samples/s. */
function follower(seconds: number): string[] {
  const square = (t: number) => (((t % 1) + 1) % 1 < 0.5 ? 0.9 : 0.1);
  const rows = Array.from({ length: seconds * 100 }, (_, i) => {
    const t = i / 100;
    return `${t.toFixed(2)},${square(t + 0.005)},${square(t - 0.145)}`;
  });
  return ["Time (s),Front O2 (V),Rear O2 (V)", ...rows];
}

/** Every number in the answer, at any depth. */
function numbersIn(value: unknown): number[] {
  if (typeof value === "number") return [value];
  if (value === null || typeof value !== "object") return [];
  return Object.values(value).flatMap(numbersIn);
}

describe("measure", () => {
  test("answers in JSON with the promised keys and finite numbers", () => {
    const { status, stdout, stderr } = measure(file("follower.csv", follower(40)), "--json");
    expect(stderr).toBe("");
    expect(status).toBe(0);
    const answer = JSON.parse(stdout);
    for (const key of ["capture", "sensors", "stretches", "whole", "liftOffs", "liftOff", "findings"]) {
      expect(answer).toHaveProperty(key);
    }
    expect(numbersIn(answer).every(Number.isFinite)).toBe(true);
    expect(answer.capture.duration.value).toBeCloseTo(39.99, 6);
    expect(answer.capture.channels.map((c: { role: string }) => c.role)).toEqual(["front-o2", "rear-o2"]);
    // Closed form: 1 Hz square, 40 s, twice a second through 0.45 V.
    expect(answer.sensors.front.frequency.value).toBeCloseTo(1, 2);
    expect(Math.abs(answer.sensors.front.crossings.value - 80)).toBeLessThanOrEqual(1);
    // Closed form: the rear is the front 0.15 s later.
    expect(answer.whole.lag.value).toBeCloseTo(0.15, 2);
    expect(answer.whole.amplitudeRatio.value).toBeCloseTo(1, 2);
    expect(answer.findings).toHaveLength(7);
  });

  test("prints a table for people without --json", () => {
    const { status, stdout } = call("measure", [file("table.csv", follower(20))], folder, true);
    expect(status).toBe(0);
    expect(stdout).toMatch(/switching frequency\s+1/);
    expect(stdout).not.toMatch(/NaN|undefined|\[object/);
  });

  test("exits 2 and says what is wrong with the call", () => {
    for (const words of [
      [],
      ["a.csv", "--bank", "3"],
      ["a.csv", "--role", "x"],
      ["a.csv", "--role", "x=y"],
      ["a.csv", "--rat", "1"],
      ["a.csv", "--engine-size", "16V"],
      ["a", "b"],
    ]) {
      const { status, stdout, stderr } = measure(...words);
      expect([words, status]).toEqual([words, 2]);
      expect(stdout).toBe("");
      expect(stderr.length).toBeGreaterThan(10);
    }
  });

  test("exits 1 for a file that cannot be read, and says what and what would help", () => {
    const missing = measure("nowhere.csv");
    expect(missing.status).toBe(1);
    expect(missing.stderr).toMatch(/nowhere\.csv.*no such file/);
    const empty = measure(file("empty.csv", []));
    expect(empty.status).toBe(1);
    expect(empty.stderr).not.toMatch(/ at .*\.ts:/);
  });

  test("names --rate where a file has no time", () => {
    const values = Array.from({ length: 100 }, (_, i) => (i % 10 < 5 ? "0.1,0.1" : "0.9,0.9"));
    const { status, stderr } = measure(file("timeless.csv", ["Front O2 (V),Rear O2 (V)", ...values]));
    expect(status).toBe(1);
    expect(stderr).toContain("--rate");
  });

  test("judges every bank, each by itself, and says of one left out that it was recorded", () => {
    const doubled = follower(30).map((row, i) => {
      const [time, front, rear] = row.split(",");
      return i === 0
        ? "Time (s),O2 B1S1 (V),O2 B1S2 (V),O2 B2S1 (V),O2 B2S2 (V)"
        : [time, front, rear, front, rear].join();
    });
    const path = file("two-banks.csv", doubled);
    const both = JSON.parse(measure(path, "--json").stdout);
    expect(both.bank).toBe(1);
    expect(both.otherBanks.map(({ bank }: { bank: number }) => bank)).toEqual([2]);
    // The same two signals in both banks: the same is found of each.
    expect(both.otherBanks[0].sensors).toEqual(both.sensors);
    expect(both.capture.remarks.join()).not.toMatch(/was recorded as well/);
    const second = JSON.parse(measure(path, "--json", "--bank", "2").stdout);
    expect(second.otherBanks).toBeUndefined();
    expect(second.capture.remarks.join()).toMatch(/bank 1 was recorded as well/);
  });

  test("measures bank 2 with columns told by --role, and the engine's channels with it", () => {
    const columns = (line: string, k: number) => (k === 0 ? "t (s),X1,X2,Engine RPM" : `${line},2000`);
    const path = file("bank2.csv", follower(30).map(columns));
    const { status, stdout } = measure(path, "--json", "--bank", "2", "--role", "X1=front-o2", "--role", "X2=rear-o2");
    expect(status).toBe(0);
    const answer = JSON.parse(stdout);
    expect(answer.sensors.front.frequency.value).toBeCloseTo(1, 2);
    // 2000 rpm is running: the engine speed counts for either bank.
    expect(answer.stretches.length).toBeGreaterThan(0);
  });

  test("takes --rate, --role and a negative --missing", () => {
    const values = Array.from({ length: 3000 }, (_, i) => (i === 7 ? "-99,1" : i % 100 < 50 ? "0.1,1" : "0.9,1"));
    const name = file("plain.csv", ["a,b", ...values]);
    const { status, stdout, stderr } = measure(
      name,
      "--json",
      "--rate",
      "100",
      "--role",
      "a=front-o2",
      "--missing",
      "-99",
    );
    expect(stderr).toBe("");
    expect(status).toBe(0);
    const { sensors } = JSON.parse(stdout);
    expect(sensors.front.frequency.value).toBeCloseTo(1, 2);
    expect(sensors.front.minimum.value).toBeCloseTo(0.1, 6);
    expect(sensors.rear).toBeNull();
  });
});
