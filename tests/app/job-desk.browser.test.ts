// The desk over storage that takes its time: what is done meanwhile is neither lost nor beyond undo.

import { createRoot } from "solid-js";
import { afterEach, describe, expect, test, vi } from "vitest";
import { type Bench, createBench } from "../../src/app/core/bench.ts";
import { createJobDesk, type JobDesk } from "../../src/app/core/job-desk.ts";
import { createKeeping } from "../../src/app/core/keeping.ts";
import { createNotices } from "../../src/app/core/notices.ts";
import { rejectLiftOff } from "../../src/job/edits/lift-off-edits.ts";
import { changeJob, keepExhibit } from "../../src/job/edits/make.ts";
import { type JobStore, makeJobStore } from "../../src/job/storage/store.ts";
import { type Problem, ProblemError } from "../../src/problem.ts";
import { exhibit } from "../job/any-edit.ts";
import { at, job } from "../job/samples.ts";
import { deferred } from "./deferred.ts";

let dispose = () => {};
afterEach(() => dispose());

const fresh = () => makeJobStore(`test-${crypto.randomUUID()}`);

function open(store: JobStore): { desk: JobDesk; bench: Bench } {
  return createRoot((end) => {
    dispose = end;
    const desk = createJobDesk(store, createNotices());
    return { desk, bench: createBench(desk, () => "a1") };
  });
}

test("an edit made while the one before is being written can be undone", async () => {
  const store = fresh();
  const [reached, passed] = [deferred(), deferred()];
  const slow: JobStore = {
    ...store,
    async save(...given) {
      reached.resolve();
      await passed.promise;
      return store.save(...given);
    },
  };
  const { desk, bench } = open(slow);
  const taken = desk.take(job);
  await reached.promise;
  const before = bench.state();
  bench.edit((state) => rejectLiftOff(state, "lift-1", "gear change"));
  passed.resolve();
  await taken;
  expect(bench.state().liftOffEdits).toHaveLength(1);
  expect(bench.canUndo()).toBe(true);
  bench.undo();
  expect(bench.state()).toEqual(before);
});

test("word from another tab that comes while this one writes takes nothing back", async () => {
  const store = fresh();
  const [reached, passed] = [deferred(), deferred()];
  let isHeld = false;
  const slow: JobStore = {
    ...store,
    async load(id) {
      const read = await store.load(id);
      if (!isHeld) return read;
      isHeld = false;
      reached.resolve();
      await passed.promise;
      return read;
    },
  };
  const { desk } = open(slow);
  await desk.take(job);
  const elsewhere = await store.save(changeJob(job, at(5), { name: "Estate" }), job);
  isHeld = true;
  const channel = new BroadcastChannel("tracewright-jobs");
  channel.postMessage(job.id);
  await reached.promise;
  channel.close();
  desk.change((now, stamp) => changeJob(now, stamp, { notes: "leak ruled out" }));
  await desk.flush();
  passed.resolve();
  await new Promise((resolve) => setTimeout(resolve, 50));
  expect(desk.job()).toMatchObject({ name: elsewhere.name, notes: "leak ruled out" });
});

test("what another tab did at the very same instant is not overwritten", async () => {
  const store = fresh();
  const { desk } = open(store);
  await desk.take(job);
  const elsewhere = { ...desk.job(), name: "Estate" }; // its stamp is that of the last save
  await store.save(elsewhere, desk.job());
  desk.change((now) => changeJob(now, now.changedAt, { notes: "leak ruled out" }));
  await desk.flush();
  expect(await store.load(job.id)).toMatchObject({ value: { name: "Estate", notes: "leak ruled out" } });
});

describe("while storage refuses", () => {
  const refusing = () => {
    const store = fresh();
    let isFull = true;
    const full: JobStore = {
      ...store,
      save: (...given) => (isFull ? Promise.reject(new ProblemError(noRoom)) : store.save(...given)),
    };
    return { store, full, free: () => (isFull = false) };
  };
  const noRoom = { code: "storage-full", what: "full", remedy: "delete" } as const;
  const edit = (desk: JobDesk) => desk.change((now, stamp) => changeJob(now, stamp, { notes: "leak ruled out" }));

  test.each([
    ["a new job", (desk: JobDesk) => desk.start()],
    ["another job", (desk: JobDesk) => desk.open("j2")],
    ["a bundle", (desk: JobDesk) => desk.take({ ...job, id: "j3" })],
  ])("%s waits for the person's word, and the job stays on the desk", async (_, leave) => {
    const { store, full } = refusing();
    await store.save({ ...job, id: "j2" }, null);
    const { desk } = open(full);
    edit(desk);
    const left = leave(desk);
    await vi.waitFor(() => expect(desk.leaving()).not.toBeNull());
    expect(desk.job().notes).toBe("leak ruled out");
    desk.leaving()!.answer(false);
    expect(await left).toBe(false);
    expect(desk.job().notes).toBe("leak ruled out");
    expect(desk.saveState()).toBe("failed");
  });

  test("it leaves when the person gives its changes up", async () => {
    const { full } = refusing();
    const { desk } = open(full);
    edit(desk);
    const left = desk.start();
    await vi.waitFor(() => expect(desk.leaving()).not.toBeNull());
    desk.leaving()!.answer(true);
    expect(await left).toBe(true);
    expect(desk.job().notes).toBe("");
  });

  test("the page asks before it is closed while a change is on its way into storage", async () => {
    const { desk } = open(fresh());
    const isAsked = () => !dispatchEvent(new Event("beforeunload", { cancelable: true }));
    edit(desk);
    expect(isAsked()).toBe(true);
    await vi.waitFor(() => expect(desk.saveState()).toBe("saved"));
    expect(isAsked()).toBe(false);
  });

  test("the page asks before it is closed, and no longer once the job is saved", async () => {
    const { full, free } = refusing();
    const { desk } = open(full);
    const isAsked = () => !dispatchEvent(new Event("beforeunload", { cancelable: true }));
    expect(isAsked()).toBe(false);
    edit(desk);
    await desk.flush();
    expect(isAsked()).toBe(true);
    free();
    await vi.waitFor(() => expect(desk.saveState()).toBe("saved"), 10_000);
    expect(isAsked()).toBe(false);
  });
});

test("a bundle of a job that is here already is merged with it, and nothing here is lost", async () => {
  const store = fresh();
  const here = changeJob(job, at(7), { notes: "here" });
  await store.save({ ...here, exhibits: [exhibit("e1")] }, null);
  const { desk } = open(store);
  await desk.take({ ...changeJob(job, at(5), { name: "Bundle" }), exhibits: [exhibit("e2")] });
  expect(desk.job().notes).toContain("here");
  expect(
    desk
      .job()
      .exhibits.map(({ id }) => id)
      .toSorted(),
  ).toEqual(["e1", "e2"]);
  expect(await store.load(job.id)).toMatchObject({ value: desk.job() });
});

test("what was begun on a job goes into that job, though another lies on the desk by then", async () => {
  const store = fresh();
  const { desk } = open(store);
  await desk.take(job);
  await desk.take({ ...job, id: "j2", name: "Another" });
  expect(await desk.changeIn(job.id, (one, stamp) => keepExhibit(one, stamp, exhibit("e1")))).toBe(true);
  expect(desk.job()).toMatchObject({ id: "j2", exhibits: [] });
  expect(await store.load(job.id)).toMatchObject({ value: { exhibits: [{ id: "e1" }] } });
  await expect(desk.changeIn("gone", (one) => one)).rejects.toThrow(/no longer/);
});

const full: Problem = { code: "storage-full", what: "full", remedy: "delete" };

test("saved is said only once the recording is kept too", async () => {
  const { desk } = open(fresh());
  await desk.take(job);
  const kept = deferred();
  void desk.keeping.follow("a1", () => kept.promise.then(() => full));
  expect(desk.saveState()).toBe("saving");
  kept.resolve();
  await vi.waitFor(() => expect(desk.saveState()).toBe("recording"));
  await desk.keeping.follow("a1", async () => null);
  expect(desk.saveState()).toBe("saved");
});

test("a recording that full storage did not take is tried again by itself, until there is room", async () => {
  const answers = [full, full, null];
  const keeping = createRoot(() => createKeeping(() => job, { retry: 1, longestRetry: 2 }));
  const told = await keeping.follow("a1", async () => answers.shift()!);
  expect(told).toBe(full);
  expect(keeping.state()).toBe("recording");
  await vi.waitFor(() => expect(keeping.state()).toBe("saved"));
  expect(answers).toEqual([]);
});

test("a job that went out of storage under the page is saved anew whole, and that it was gone is counted", async () => {
  const store = fresh();
  const { desk } = open(store);
  await desk.take(job);
  expect(desk.emptied()).toBe(0);
  await store.remove(job.id);
  desk.change((now, stamp) => changeJob(now, stamp, { notes: "after it" }));
  await desk.flush();
  expect(desk.emptied()).toBe(1);
  const saved = await store.load(job.id);
  expect(saved.ok && [saved.value.notes, saved.value.captures.length]).toEqual(["after it", job.captures.length]);
});
