// A large record read in a thread of its own: the same answer as on the page, whatever the record is.

import { expect, test } from "vitest";
import { readRecordBeside } from "../../src/app/core/read-record.ts";
import { jobText, readJob } from "../../src/job/record/format.ts";
import { at, captureRecord, job } from "../job/samples.ts";

const place = (i: number) => ({ id: `p${i}`, name: `Place ${i}, ${"long ".repeat(40)}`, from: i, to: i + 1 });
const captures = Array.from({ length: 6 }, (_, i) => {
  const record = captureRecord(`${i}`.repeat(64));
  return { ...record, bench: { ...record.bench, places: Array.from({ length: 900 }, (_, k) => place(k)) } };
});
const large = jobText({ ...job, captures, changedAt: at(2) });

test("a record of megabytes is read beside the page, and nothing of it is lost", async () => {
  expect(large.length).toBeGreaterThan(1e6);
  let started = 0;
  const start = () => {
    started++;
    return new Worker(new URL("../../src/app/core/record.worker.ts", import.meta.url), { type: "module" });
  };
  const read = await readRecordBeside(large, "here", start);
  expect(read).toEqual(readJob(large, "here"));
  expect(read.ok).toBe(true);
  expect(started).toBe(1);
});

test("what is wrong with a large one is told as for a small one", async () => {
  for (const text of [
    large.slice(0, -9),
    large.replace('"version": ', '"version": 9'),
    large.replace('"gain"', '"gone"'),
  ])
    expect(await readRecordBeside(text, "here")).toEqual(readJob(text, "here"));
});

test("without a thread the page reads it itself", async () => {
  const start = () => new Worker(URL.createObjectURL(new Blob(["throw new Error()"])));
  expect(await readRecordBeside(large, "here", start)).toEqual(readJob(large, "here"));
});
