// A survey as a script would call it, its shards read together by an engine of others (DuckDB), and one that goes on.

import { appendFileSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DuckDBInstance } from "@duckdb/node-api";
import Papa from "papaparse";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { Journal, journalOf } from "../../src/command/survey/journal.ts";
import { call } from "./call.ts";

const folder = mkdtempSync(join(tmpdir(), "survey-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** From `folder`, as a user would who stands there. */
const survey = (...words: string[]) => call("survey", words, folder);

/** The front switches at a frequency, 0.1 and 0.9 V; the rear follows 0.15 s later. 100 samples/s. */
function follower(frequency: number): string {
  const square = (t: number) => (((t * frequency) % 1) + 1) % 1 < 0.5;
  const row = (i: number) => [i / 100, ...[0.005, -0.145].map((late) => (square(i / 100 + late) ? 0.9 : 0.1))].join();
  return ["Time (s),Front O2 (V),Rear O2 (V)", ...Array.from({ length: 3000 }, (_, i) => row(i))].join("\n");
}

const frequencies = [0.8, 0.9, 1, 1.1, 1.25];

beforeAll(() => {
  mkdirSync(join(folder, "cars/last week"), { recursive: true });
  frequencies.forEach((frequency, k) => {
    writeFileSync(join(folder, k < 2 ? "cars/last week" : "cars", `=car ${k}.csv`), follower(frequency));
  });
  writeFileSync(join(folder, "cars/cut.csv.gz"), Uint8Array.of(0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 0, 3));
  writeFileSync(join(folder, "cars/.hidden"), "no recording");
});

async function ask(query: string): Promise<unknown[]> {
  const connection = await (await DuckDBInstance.create(":memory:")).connect();
  return (await connection.runAndReadAll(query)).getRowObjectsJson();
}

describe("survey", () => {
  test("has two shards that together hold every file once, a broken one with its reason", {
    timeout: 180_000,
  }, async () => {
    for (const part of [1, 2]) {
      const { status, stdout, stderr } = survey("cars", "--out", `${part}.parquet`, "--shard", `${part}/2`);
      expect({ status, stderr }).toMatchObject({ status: 0 });
      expect(stdout).toMatch(/^\d files: \d measured, \d not read/);
    }
    const both = `read_parquet(['${join(folder, "1.parquet")}', '${join(folder, "2.parquet")}'])`;
    const measured = await ask(
      `SELECT file, front_frequency_hz AS hz, front_frequency_hz_low AS low, front_frequency_hz_high AS high, bytes
       FROM ${both} WHERE status = 'measured' ORDER BY hz`,
    );
    expect(measured.map((row) => (row as { file: string }).file.replace(/.*=/, ""))).toEqual(
      frequencies.map((_, k) => `car ${k}.csv`),
    );
    frequencies.forEach((frequency, k) => {
      const { low, high } = measured[k] as { low: number; high: number };
      expect(low <= frequency && frequency <= high).toBe(true);
    });
    expect(await ask(`SELECT file, problem, reason FROM ${both} WHERE status <> 'measured'`)).toEqual([
      {
        file: "cut.csv.gz",
        problem: expect.any(String),
        reason: expect.stringContaining("cut.csv is empty: it holds no bytes."),
      },
    ]);
  });

  test("writes the same as CSV, where no name is a formula", { timeout: 120_000 }, () => {
    const { status, stdout } = call("survey", ["cars"], folder, true);
    expect(status).toBe(0);
    const { data, errors } = Papa.parse<Record<string, string>>(stdout.trimEnd(), { header: true });
    expect(errors).toEqual([]);
    expect(data.map(({ file }) => file)).toEqual([
      "'=car 2.csv",
      "'=car 3.csv",
      "'=car 4.csv",
      "cut.csv.gz",
      "last week/=car 0.csv",
      "last week/=car 1.csv",
    ]);
    expect(data.map(({ status: read }) => read)).toEqual([
      ...Array(3).fill("measured"),
      "not read",
      "measured",
      "measured",
    ]);
  });

  test("exits 2 for a wrong call and 1 where the folder or the table's place is missing", { timeout: 120_000 }, () => {
    for (const words of [[], ["cars", "more"], ["cars", "--out", "table.xls"], ["cars", "--shard", "3/2"]])
      expect(survey(...words).status).toBe(2);
    const nowhere = survey("nowhere");
    expect([nowhere.status, nowhere.stderr]).toEqual([1, expect.stringMatching(/nowhere.*no such folder/)]);
    const unwritten = survey("cars", "--out", "no/such/place.csv");
    expect([unwritten.status, unwritten.stderr]).toEqual([
      1,
      expect.stringMatching(/place\.csv.*could not be written/),
    ]);
  });
});

describe("a survey's journal", () => {
  const out = join(folder, "table.csv");
  const file = { file: "a.csv", path: "/a.csv", bytes: 7, changed: 1_700_000_000_000.25 };

  test("knows what was measured before it was stopped, but not of changed files or by another program", async () => {
    const journal = new Journal(out, "one");
    await journal.begin();
    await journal.keep(file, { file: "a.csv", status: "measured" });
    await journal.close();
    appendFileSync(journalOf(out), '{"file":"b.csv","byt');
    const again = new Journal(out, "one");
    await again.begin();
    expect(again.rowOf(file)).toEqual({ file: "a.csv", status: "measured" });
    expect(again.rowOf({ ...file, changed: file.changed + 1 })).toBeNull();
    expect(again.rowOf({ ...file, file: "b.csv" })).toBeNull();
    await again.keep({ ...file, file: "b.csv" }, { file: "b.csv" });
    await again.close();
    const other = new Journal(out, "other");
    await other.begin();
    expect(other.rowOf(file)).toBeNull();
    expect(readFileSync(journalOf(out), "utf8")).toContain('"b.csv"');
    await other.done();
    expect(existsSync(journalOf(out))).toBe(false);
  });
});
