// References that are chosen or measured while another is on its way, over a made-up service that takes its time.

import { createRoot } from "solid-js";
import { afterEach, beforeEach, expect, test } from "vitest";
import { createWorkbench, type Workbench } from "../../src/app/workbench.ts";
import { asRead } from "../../src/capture/model/take.ts";
import type { Comparable } from "../../src/exhaust/comparing/comparison.ts";
import { shiftByHand } from "../../src/exhaust/lining-up/line-up.ts";
import { keepCapture } from "../../src/job/edits/make.ts";
import { makeShelf } from "../../src/job/shelf/shelf.ts";
import { makeJobStore } from "../../src/job/storage/store.ts";
import type { Outcome } from "../../src/problem.ts";
import type { Turn, WholeRequest } from "../../workers/protocol.ts";
import { recording } from "../exhaust/comparables.ts";
import { at, captureRecord, job } from "../job/samples.ts";
import { deferred } from "./deferred.ts";
import { fakeService, summary } from "./fake-service.ts";

let dispose = () => {};
let bench: Workbench;
/** Recordings whose measurement was begun, and given up. */
let begun: string[] = [];
let givenUp: string[] = [];
/** A recording that cannot be measured. */
let broken = "";

function slowService() {
  const made = fakeService();
  return {
    ...made,
    reopen: async (id: string) => ({ ok: true as const, value: { ...summary, id, take: asRead(id, {}) } }),
    async comparable({ take: { captureId } }: WholeRequest, { signal }: Turn): Promise<Outcome<Comparable>> {
      if (captureId === broken) return { ok: false, problem: unmeasurable };
      begun.push(captureId);
      const isDone = await new Promise<boolean>((resolve) => {
        signal?.addEventListener("abort", () => setTimeout(() => resolve(false))); // its word takes its way
        setTimeout(() => resolve(true), 300);
      });
      if (isDone) return { ok: true, value: recording(captureId, []) };
      givenUp.push(captureId);
      return { ok: false, problem: { code: "cancelled", what: "Given up.", remedy: "Ask again." } };
    },
  };
}

const unmeasurable = { code: "cancelled", what: "It cannot be measured.", remedy: "Open it again." } as const;

beforeEach(async () => {
  [begun, givenUp] = [[], []];
  broken = "";
  const name = `test-${crypto.randomUUID()}`;
  const three = ["b1", "c1"].reduce((so, id) => keepCapture(so, at(2), captureRecord(id)), job);
  bench = createRoot((end) => {
    dispose = end;
    return createWorkbench({ service: slowService(), store: makeJobStore(name), shelf: makeShelf(name) });
  });
  await bench.desk.take(three);
  await bench.opening.look("a1");
});
afterEach(() => dispose());

const record = (id: string) => bench.desk.job().captures.find((one) => one.id === id)!;
const choose = (id: string) => bench.comparing.start({ kind: "job", record: record(id) });

test("of two references chosen in a row the later one is compared with", async () => {
  const first = choose("b1");
  await expect.poll(() => begun, { interval: 5 }).toEqual(["b1"]);
  await choose("c1");
  await first;
  expect(bench.comparing.reference()?.key).toBe("job:c1");
  expect(bench.bench.state().compared).toBe("job:c1");
  expect(bench.comparing.fetching()).toBeNull();
  expect(givenUp).toEqual(["b1"]);
  bench.bench.undo();
  expect(bench.comparing.reference()).toBeNull();
  bench.bench.redo();
  await expect.poll(() => bench.comparing.reference()?.key).toBe("job:c1");
});

test("a reference that is still on its way does not come once comparing has ended", async () => {
  const first = choose("b1");
  bench.comparing.end();
  expect(bench.comparing.fetching()).toBeNull();
  await first;
  expect(bench.comparing.reference()).toBeNull();
  expect(bench.bench.state().compared).toBeUndefined();
});

test("the recording guide learns the job's other recordings while a reference is measured", async () => {
  const learnt = bench.recorded.complete();
  await choose("b1");
  await learnt;
  expect(bench.recorded.all()).toHaveLength(2);
});

test("a line-up that is told after another reference was chosen is not laid", async () => {
  await choose("b1");
  const told = deferred();
  const find = () => told.promise.then(() => ({ ok: true as const, value: shiftByHand(3, 0.1) }));
  const lined = bench.comparing.lineUp({ id: "slow", label: "slow", find });
  await choose("c1");
  told.resolve();
  await lined;
  expect(bench.bench.state().laid?.shift).toBeUndefined();
  await bench.comparing.lineUp({ id: "now", label: "now", find });
  expect(bench.bench.state().laid?.shift?.shift.value).toBe(3);
});

test("whether two are of the same run is asked no more once they are compared, or lie on one axis", async () => {
  const { sameRun } = bench;
  const offer = { opened: record("a1"), onto: record("b1") };
  sameRun.makeOffer(offer);
  await sameRun.add(record("c1"));
  expect(sameRun.offer()).toEqual(offer);
  await sameRun.add(record("b1"));
  expect(sameRun.offer()).toBeNull();
  sameRun.makeOffer(offer);
  await choose("b1");
  expect(sameRun.offer()).toBeNull();
});

test("a recording on the bench that cannot be measured is said to be, and nothing is called under way any more", async () => {
  broken = "a1";
  bench.traces.setWidth(400);
  bench.overview.setWidth(400);
  await choose("b1");
  expect(bench.comparing.reference()?.key).toBe("job:b1");
  await expect.poll(() => bench.comparing.problem()).toEqual(unmeasurable);
  expect(bench.comparing.comparison()).toBeNull();
  expect(bench.comparing.isUnderWay()).toBe(false);
  bench.comparing.end();
  expect(bench.comparing.problem()).toBeNull();
});
