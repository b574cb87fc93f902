// In Chromium: the store works on the browser's own database.

import { createStore, get, set } from "idb-keyval";
import { describe, expect, test } from "vitest";
import { changeJob, newJob } from "../../src/job/edits/make.ts";
import { jobText } from "../../src/job/record/format.ts";
import { makeJobStore } from "../../src/job/storage/store.ts";
import { at, job } from "./samples.ts";

const fresh = () => makeJobStore(`test-${crypto.randomUUID()}`);

describe("makeJobStore", () => {
  test("keeps jobs, lists the newest first, and remembers the last one", async () => {
    const store = fresh();
    await store.save(job, null);
    await store.save(newJob("j2", at(9), "Van"), null);
    await store.setLast("j1");
    expect((await store.list()).map((line) => line.name)).toEqual(["Van", "Hatchback"]);
    expect(await store.load("j1")).toEqual({ ok: true, value: job });
    expect(await store.last()).toBe("j1");
  });

  test("merges what another tab wrote in between", async () => {
    const store = fresh();
    await store.save(job, null);
    await store.save(changeJob(job, at(5), { name: "Estate" }), job);
    const merged = await store.save(changeJob(job, at(6), { notes: "tight" }), job);
    expect(merged).toMatchObject({ name: "Estate", notes: "tight" });
    expect(await store.load("j1")).toEqual({ ok: true, value: merged });
  });

  test("deletes a job with its pictures, and says so when it is asked for", async () => {
    const store = fresh();
    await store.save(job, null);
    await store.keepBlob("j1", "e1.png", new Blob(["x"]));
    await store.keepBlob("j10", "e1.png", new Blob(["y"]));
    await store.remove("j1");
    expect(await store.load("j1")).toMatchObject({ ok: false, problem: { code: "unreadable" } });
    expect(await store.blob("j1", "e1.png")).toBeNull();
    expect(await (await store.blob("j10", "e1.png"))!.text()).toBe("y");
  });
});

// WebKitGTK 2.50 in a private window takes a Blob and gives back null; older ones refuse it with a DataCloneError.
test.each([
  ["forgets", () => null],
  [
    "refuses",
    () => {
      throw new DOMException("no blobs", "DataCloneError");
    },
  ],
])("a picture is kept where the browser %s Blobs, and weighs what it did", async (_, instead) => {
  const { put } = IDBObjectStore.prototype;
  IDBObjectStore.prototype.put = function (value, key) {
    return put.call(this, value instanceof Blob ? instead() : value, key);
  };
  try {
    const store = fresh();
    await store.save(job, null);
    await store.keepBlob("j1", "e1.png", new Blob(["a picture"], { type: "image/png" }));
    const back = await store.blob("j1", "e1.png");
    expect([back?.type, await back?.text()]).toEqual(["image/png", "a picture"]);
    expect((await store.holdings()).jobs).toMatchObject([{ id: "j1", pictures: 9 }]);
    await store.removeBlobs("j1", ["e1.png"]);
    expect(await store.blob("j1", "e1.png")).toBeNull();
  } finally {
    IDBObjectStore.prototype.put = put;
  }
});

describe("a record that cannot be read", () => {
  const garbled = async (name: string, id: string, text: unknown) => set(id, text, createStore(`${name}-jobs`, "jobs"));

  test.each([
    ["cut off", jobText(job).slice(0, 200)],
    ["no text at all", 7],
    ["of a wrong shape", jobText(job).replace('"paper"', '"pepper"').replace('"bank": 1', '"bank": 9')],
  ])("%s is set aside and named, and the other jobs are listed", async (_, text) => {
    const name = `test-${crypto.randomUUID()}`;
    const store = makeJobStore(name);
    await store.save(newJob("j2", at(9), "Van"), null);
    await garbled(name, "j1", text);
    expect((await store.list()).map((line) => line.name)).toEqual(["Van"]);
    expect(await store.aside.list()).toMatchObject([{ id: "j1", text: String(text), problem: { code: "damaged" } }]);
    expect(await store.load("j1")).toMatchObject({ ok: false, problem: { code: "unreadable" } });
    await store.aside.remove("j1");
    expect(await store.aside.list()).toEqual([]);
  });

  test("gives way to a job that is saved in its place, and is not lost", async () => {
    const name = `test-${crypto.randomUUID()}`;
    const store = makeJobStore(name);
    await garbled(name, "j1", "{");
    await store.save(job, null);
    expect(await store.load("j1")).toEqual({ ok: true, value: job });
    expect(await store.aside.list()).toMatchObject([{ id: "j1", text: "{" }]);
  });

  test("of a newer program is neither set aside nor overwritten", async () => {
    const name = `test-${crypto.randomUUID()}`;
    const store = makeJobStore(name);
    const newer = jobText({ ...job, version: 99 as never });
    await garbled(name, "j1", newer);
    await expect(store.save(job, null)).rejects.toMatchObject({ problem: { code: "newer-version" } });
    expect(await store.list()).toEqual([]);
    expect(await get("j1", createStore(`${name}-jobs`, "jobs"))).toBe(newer);
  });
});

test("what could not be read back is not written", async () => {
  const store = fresh();
  await store.save(job, null);
  const long = changeJob(job, at(5), { notes: "x".repeat(200_000) });
  await expect(store.save(long, job)).rejects.toMatchObject({ problem: { code: "too-large" } });
  expect(await store.load("j1")).toEqual({ ok: true, value: job });
});
