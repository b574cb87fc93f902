// The desk over storage that takes its time: what is done meanwhile is neither lost nor beyond undo.

import { createRoot } from "solid-js";
import { afterEach, expect, test } from "vitest";
import { type Bench, createBench } from "../../src/app/state/bench.ts";
import { createJobDesk, type JobDesk } from "../../src/app/state/job-desk.ts";
import { createNotices } from "../../src/app/state/notices.ts";
import { rejectLiftOff } from "../../src/job/lift-off-edits.ts";
import { changeJob } from "../../src/job/make.ts";
import { type JobStore, makeJobStore } from "../../src/job/store.ts";
import { at, job } from "../job/samples.ts";

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

/** A gate in the way of the storage: it says when it is reached, and holds until let pass. */
function gate() {
  let reach = () => {};
  let pass = () => {};
  const reached = new Promise<void>((resolve) => {
    reach = resolve;
  });
  const passed = new Promise<void>((resolve) => {
    pass = resolve;
  });
  return { reached, passed, reach, pass };
}

test("an edit made while the one before is being written can be undone", async () => {
  const store = fresh();
  const { reached, passed, reach, pass } = gate();
  const slow: JobStore = {
    ...store,
    async save(...given) {
      reach();
      await passed;
      return store.save(...given);
    },
  };
  const { desk, bench } = open(slow);
  const taken = desk.take(job);
  await reached;
  const before = bench.state();
  bench.edit((state) => rejectLiftOff(state, "lift-1", "gear change"));
  pass();
  await taken;
  expect(bench.state().liftOffEdits).toHaveLength(1);
  expect(bench.canUndo()).toBe(true);
  bench.undo();
  expect(bench.state()).toEqual(before);
});

test("word from another tab that comes while this one writes takes nothing back", async () => {
  const store = fresh();
  const { reached, passed, reach, pass } = gate();
  let isHeld = false;
  const slow: JobStore = {
    ...store,
    async load(id) {
      const read = await store.load(id);
      if (!isHeld) return read;
      isHeld = false;
      reach();
      await passed;
      return read;
    },
  };
  const { desk } = open(slow);
  await desk.take(job);
  const elsewhere = await store.save(changeJob(job, at(5), { name: "Estate" }), job);
  isHeld = true;
  const channel = new BroadcastChannel("tracewright-jobs");
  channel.postMessage(job.id);
  await reached;
  channel.close();
  desk.change((now, stamp) => changeJob(now, stamp, { notes: "leak ruled out" }));
  await desk.flush();
  pass();
  await new Promise((resolve) => setTimeout(resolve, 50));
  expect(desk.job()).toMatchObject({ name: elsewhere.name, notes: "leak ruled out" });
});
