// References that are chosen or measured while another is on its way, over a made-up service that, as the worker does,
// gives up a measurement of a whole recording for a newer one.

import { createRoot } from "solid-js";
import { afterEach, beforeEach, expect, test } from "vitest";
import { measuredOn } from "../../src/app/core/in-turn.ts";
import { createWorkbench, type Workbench } from "../../src/app/workbench.ts";
import { shiftByHand } from "../../src/exhaust/lining-up/line-up.ts";
import { keepCapture } from "../../src/job/edits/make.ts";
import { makeShelf } from "../../src/job/shelf/shelf.ts";
import { makeJobStore } from "../../src/job/storage/store.ts";
import type { Outcome } from "../../src/problem.ts";
import type { WholeReadings } from "../../workers/protocol.ts";
import { recording } from "../exhaust/comparables.ts";
import { at, captureRecord, job } from "../job/samples.ts";
import { deferred } from "./deferred.ts";
import { fakeService, summary } from "./fake-service.ts";

let dispose = () => {};
let bench: Workbench;
/** Which recordings were to be measured as a whole, in order. */
let asked: string[] = [];

function serviceThatGivesUp() {
  const made = fakeService();
  let giveUp: () => unknown = () => {};
  return {
    ...made,
    reopen: async (id: string) => ({ ok: true as const, value: { ...summary, id } }),
    correct: async (id: string) => ({ ok: true as const, value: { ...summary, id } }),
    comparable: async (id: string) => ({ ok: true as const, value: recording(id, []) }),
    async whole(...given: Parameters<typeof made.whole>): Promise<Outcome<WholeReadings>> {
      asked.push(given[0]);
      giveUp();
      const isDone = await new Promise<boolean>((resolve) => {
        giveUp = () => setTimeout(() => resolve(false)); // its word takes its way
        setTimeout(() => resolve(true), 50);
      });
      const problem = { code: "cancelled", what: "Given up.", remedy: "Ask again." } as const;
      return isDone ? made.whole(...given) : { ok: false, problem };
    },
  };
}

beforeEach(async () => {
  asked = [];
  const name = `test-${crypto.randomUUID()}`;
  const three = ["b1", "c1"].reduce((so, id) => keepCapture(so, at(2), captureRecord(id)), job);
  bench = createRoot((end) => {
    dispose = end;
    return createWorkbench({ service: serviceThatGivesUp(), store: makeJobStore(name), shelf: makeShelf(name) });
  });
  await bench.desk.take(three);
  await bench.opening.look("a1");
});
afterEach(() => dispose());

const record = (id: string) => bench.desk.job().captures.find((one) => one.id === id)!;
const choose = (id: string) => bench.comparing.start({ kind: "job", record: record(id) });

test("of two references chosen in a row the later one is compared with", async () => {
  const first = choose("b1");
  await new Promise((resolve) => setTimeout(resolve, 20));
  await choose("c1");
  await first;
  expect(bench.comparing.reference()?.key).toBe("job:c1");
  expect(bench.bench.state().compared).toBe("job:c1");
  expect(bench.comparing.fetching()).toBeNull();
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

test("two references measured at once wait for each other", async () => {
  const [b, c] = await Promise.all(["b1", "c1"].map((id) => measuredOn(id, bench, record(id))));
  expect([b!.name, c!.name]).toEqual(["b1", "c1"]);
  expect(asked.filter((id) => id !== "a1")).toEqual(["b1", "c1"]);
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
