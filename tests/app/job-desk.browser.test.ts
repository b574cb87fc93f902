// The desk over storage that takes its time: what is done meanwhile is neither lost nor beyond undo.

import { createRoot } from "solid-js";
import { afterEach, expect, test } from "vitest";
import { type Bench, createBench } from "../../src/app/core/bench.ts";
import { createJobDesk, type JobDesk } from "../../src/app/core/job-desk.ts";
import { createNotices } from "../../src/app/core/notices.ts";
import { rejectLiftOff } from "../../src/job/edits/lift-off-edits.ts";
import { changeJob } from "../../src/job/edits/make.ts";
import { type JobStore, makeJobStore } from "../../src/job/storage/store.ts";
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
