// The shelf in a real browser's storage: kept, corrupted, refused; nothing is lost.

import { createStore, set } from "idb-keyval";
import { afterEach, expect, test, vi } from "vitest";
import { makeShelf } from "../../src/job/shelf/shelf.ts";
import { shelfTrace } from "./shelf-sample.ts";

afterEach(() => vi.restoreAllMocks());

test("keeps, lists newest first, and removes", async () => {
  const shelf = makeShelf("shelf-one");
  const newer = { ...shelfTrace, id: "b", keptAt: "2026-05-01T00:00:00.000Z" };
  expect(await shelf.keep(shelfTrace)).toEqual({ ok: true, value: null });
  await shelf.keep(newer);
  expect(await makeShelf("shelf-one").list()).toEqual({
    ok: true,
    value: { traces: [newer, shelfTrace], problems: [] },
  });
  await shelf.remove("b");
  expect(await shelf.list()).toEqual({ ok: true, value: { traces: [shelfTrace], problems: [] } });
});

test("tells of an entry that cannot be read, lists the others, and leaves it where it is", async () => {
  const shelf = makeShelf("shelf-two");
  await shelf.keep(shelfTrace);
  await set("bad", "{ cut", createStore("shelf-two-shelf", "traces"));
  for (const _ of [1, 2]) {
    const list = await shelf.list();
    if (!list.ok) throw new Error(list.problem.what);
    expect(list.value.traces).toEqual([shelfTrace]);
    expect(list.value.problems).toMatchObject([{ code: "damaged", where: "shelf trace bad" }]);
  }
});

test("says so when storage may not be looked at, and what was kept is there once it may", async () => {
  const shelf = makeShelf("shelf-shut");
  await shelf.keep(shelfTrace);
  vi.spyOn(IDBDatabase.prototype, "transaction").mockImplementation(() => {
    throw new DOMException("refused", "SecurityError");
  });
  expect(await shelf.list()).toMatchObject({ ok: false, problem: { code: "storage-denied" } });
  expect(await shelf.remove(shelfTrace.id)).toMatchObject({ ok: false, problem: { code: "storage-denied" } });
  vi.restoreAllMocks();
  expect(await shelf.list()).toEqual({ ok: true, value: { traces: [shelfTrace], problems: [] } });
});

test.each([
  ["QuotaExceededError", "storage-full"],
  ["SecurityError", "storage-denied"],
])("says so when storage answers %s, and what was kept stays", async (name, code) => {
  const shelf = makeShelf(`shelf-${code}`);
  await shelf.keep(shelfTrace);
  vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(() => {
    throw new DOMException("refused", name);
  });
  expect(await shelf.keep({ ...shelfTrace, id: "c" })).toMatchObject({ ok: false, problem: { code } });
  vi.restoreAllMocks();
  expect(await shelf.list()).toMatchObject({ ok: true, value: { traces: [{ id: shelfTrace.id }] } });
});
