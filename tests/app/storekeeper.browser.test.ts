// Who refers to what is counted over jobs, pictures, shelf and recordings together; what nobody refers to goes.

import { createRoot } from "solid-js";
import { afterEach, expect, test, vi } from "vitest";
import { createJobDesk, type JobDesk } from "../../src/app/core/job-desk.ts";
import { createNotices } from "../../src/app/core/notices.ts";
import { createStorekeeper, type Storekeeper } from "../../src/app/core/storekeeper.ts";
import { makeShelf } from "../../src/job/shelf/shelf.ts";
import { makeJobStore } from "../../src/job/storage/store.ts";
import { ProblemError } from "../../src/problem.ts";
import { exhibit } from "../job/any-edit.ts";
import { captureRecord, job } from "../job/samples.ts";
import { shelfTrace } from "../job/shelf-sample.ts";

let dispose = () => {};
afterEach(() => dispose());

const full = { code: "storage-full", what: "Full.", remedy: "Make room." } as const;
const hex = (digit: string) => digit.repeat(64);
const withCaptures = (id: string, digits: string) => ({
  ...job,
  id,
  captures: [...digits].map((digit) => captureRecord(hex(digit))),
});

async function setUp(recordings: string, waits?: Parameters<typeof createStorekeeper>[1]) {
  const name = `test-${crypto.randomUUID()}`;
  const [store, shelf] = [makeJobStore(name), makeShelf(name)];
  const stored = new Map([...recordings].map((digit) => [hex(digit), 1000] as const));
  const refusals: DOMException[] = [];
  const service = {
    stored: async () => {
      const refusal = refusals.pop();
      if (refusal) throw refusal;
      return [...stored].map(([id, bytes]) => ({ id, bytes, name: "" }));
    },
    forget: async (id: string) => void stored.delete(id),
    removeStored: async (id: string) => void stored.delete(id),
  };
  const { desk, keeper } = createRoot((end): { desk: JobDesk; keeper: Storekeeper } => {
    dispose = end;
    const desk = createJobDesk(store, createNotices());
    return { desk, keeper: createStorekeeper({ service, desk, shelf }, waits) };
  });
  const left = () => [...stored.keys()].map((id) => id[0]).join("");
  return { store, shelf, desk, keeper, left, refusals };
}

const removed = { ok: true, value: null };

test("a job that lies on another tab's desk is not deleted, before it has left it", async () => {
  const { store, keeper, left } = await setUp("a");
  await store.save(withCaptures("j1", "a"), null);
  const { elsewhere, close } = createRoot((close) => ({ elsewhere: createJobDesk(store, createNotices()), close }));
  await elsewhere.open("j1");
  const letGo = vi.fn();
  const isTold = async () => (await navigator.locks.query()).held?.some(({ name }) => name?.endsWith("-j1"));
  await vi.waitFor(async () => expect(await isTold()).toBe(true));
  expect(await keeper.removeJob("j1", letGo)).toMatchObject({
    ok: false,
    problem: { what: expect.stringMatching(/another tab/) },
  });
  expect(letGo).not.toHaveBeenCalled();
  expect(left()).toBe("a");
  await elsewhere.start();
  await vi.waitFor(async () => expect(await keeper.removeJob("j1", letGo)).toEqual(removed));
  expect(letGo).toHaveBeenCalled();
  expect(left()).toBe("");
  close();
});

test("a deleted job gives back at once what only it refers to", async () => {
  const { store, shelf, keeper, left } = await setUp("abcd");
  await store.save(withCaptures("j1", "abc"), null);
  await store.save(withCaptures("j2", "b"), null);
  await shelf.keep({ ...shelfTrace, captureId: hex("c") });
  expect(await keeper.removeJob("j1", () => {})).toEqual(removed);
  expect(left()).toBe("bcd");
});

test("a recording that is taken out gives its bytes back at once; not what another job or the shelf refers to", async () => {
  const { store, shelf, desk, keeper, left } = await setUp("abc");
  await store.save(withCaptures("j2", "b"), null);
  await shelf.keep({ ...shelfTrace, captureId: hex("c") });
  await desk.take(withCaptures("j1", "abc"));
  for (const digit of "abc") await keeper.takeOut(hex(digit));
  expect(desk.job().captures).toEqual([]);
  expect(left()).toBe("bc");
});

test("where storage is full, taking out comes first and makes the room in which it is saved", async () => {
  const { store, desk, keeper, left } = await setUp("ab");
  await desk.take(withCaptures("j1", "ab"));
  const save = store.save;
  desk.store.save = (next, base) =>
    left().includes("a") ? Promise.reject(new ProblemError(full)) : save.call(store, next, base);
  await keeper.takeOut(hex("a"));
  expect(left()).toBe("b");
  const stored = await store.load("j1");
  expect(stored.ok && stored.value.captures.map(({ id }) => id[0])).toEqual(["b"]);
});

test("where the record cannot be saved for another reason, what is taken out of it stays in storage", async () => {
  const { store, desk, keeper, left } = await setUp("ab");
  await desk.take(withCaptures("j1", "ab"));
  const save = store.save;
  const denied = { code: "storage-denied", what: "Denied.", remedy: "Allow it." } as const;
  desk.store.save = () => Promise.reject(new ProblemError(denied));
  await keeper.takeOut(hex("a"));
  expect(left()).toBe("ab");
  desk.store.save = save;
  await desk.flush();
  await keeper.sweep(0);
  expect(left()).toBe("b");
});

test("where storage is so full that a record cannot be deleted, its recordings go first", async () => {
  const { store, desk, keeper, left } = await setUp("a");
  await store.save(withCaptures("j1", "a"), null);
  const remove = store.remove;
  desk.store.remove = (id) => (left() === "" ? remove.call(store, id) : Promise.reject(new ProblemError(full)));
  expect(await keeper.removeJob("j1", () => {})).toEqual(removed);
  expect(left()).toBe("");
  expect(await store.list()).toEqual([]);
});

test("where a record cannot be deleted for another reason, its recordings stay with it", async () => {
  const { store, desk, keeper, left } = await setUp("a");
  await store.save(withCaptures("j1", "a"), null);
  const denied = { code: "storage-denied", what: "Denied.", remedy: "Allow it." } as const;
  desk.store.remove = () => Promise.reject(new ProblemError(denied));
  expect(await keeper.removeJob("j1", () => {})).toEqual({ ok: false, problem: denied });
  expect(left()).toBe("a");
});

test("a trace taken off the shelf gives its bytes back at once", async () => {
  const { shelf, keeper, left } = await setUp("a");
  await shelf.keep({ ...shelfTrace, captureId: hex("a") });
  expect(await keeper.takeOffShelf({ id: shelfTrace.id, captureId: hex("a") })).toEqual({ ok: true, value: null });
  expect(left()).toBe("");
});

test("a sweep takes recordings and pictures that nobody refers to, and nothing else", async () => {
  const { store, shelf, desk, keeper, left } = await setUp("abcde");
  await store.save({ ...withCaptures("j1", "a"), exhibits: [exhibit("e1")] }, null);
  await shelf.keep({ ...shelfTrace, captureId: hex("b") });
  await desk.take(withCaptures("j3", "c"));
  for (const name of ["e1.png", "e9.png"]) await store.keepBlob("j1", name, new Blob(["x"]));
  await keeper.sweep(0);
  expect(left()).toBe("abc");
  expect(await store.blob("j1", "e1.png")).not.toBeNull();
  expect(await store.blob("j1", "e9.png")).toBeNull();
  expect(keeper.freed()).toBe(2001);
});

test("what gets its record between the two looks stays", async () => {
  const { store, keeper, left } = await setUp("a");
  const swept = keeper.sweep(300);
  await new Promise((resolve) => setTimeout(resolve, 50));
  await store.save(withCaptures("j1", "a"), null);
  await swept;
  expect(left()).toBe("a");
});

test("where the jobs cannot be read nothing is swept", async () => {
  const { desk, keeper, left } = await setUp("a");
  desk.store.holdings = () => Promise.reject(new DOMException("no", "UnknownError"));
  await keeper.sweep(0).catch(() => {});
  expect(left()).toBe("a");
});

test("a sweep that storage stood against is tried again", async () => {
  const { left, refusals } = await setUp("a", { afterStart: 20, apart: 20 });
  refusals.push(new DOMException("gone", "NotFoundError"));
  await expect.poll(left).toBe("");
});

test("usage is told by job, a recording that two refer to in each", async () => {
  const { store, shelf, keeper } = await setUp("abc");
  await store.save(withCaptures("j1", "ab"), null);
  await store.save(withCaptures("j2", "b"), null);
  await shelf.keep({ ...shelfTrace, captureId: hex("c") });
  await store.keepBlob("j1", "e1.png", new Blob(["xy"]));
  const { jobs, shelf: onShelf, all } = await keeper.usage();
  expect([jobs.get("j1"), jobs.get("j2"), onShelf]).toEqual([2002, 1000, 1000]);
  expect(all).toBe(3002);
});
