// In Chromium: the store works on the browser's own database.

import { describe, expect, test } from "vitest";
import { changeJob, newJob } from "../../src/job/edits/make.ts";
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
