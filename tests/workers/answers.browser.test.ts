// What was measured is there after a reload, as long as nothing changed that it depends on.

import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { Take } from "../../src/capture/model/take.ts";
import type { WholeChoices } from "../../workers/protocol.ts";
import { difference } from "../difference.ts";
import { corrected, inTurn, open, text } from "./larger-files.ts";
import { clearCaptures, type Playground, startPlayground } from "./playground.ts";

beforeEach(clearCaptures);
afterEach(clearCaptures);

async function whole(service: Playground, take: Take, choices: WholeChoices = {}) {
  const outcome = await service.whole({ take, choices }, inTurn);
  if (!outcome.ok) throw new Error(outcome.problem.what);
  return outcome.value;
}

/** The recording measured and kept, and the worker ended. */
async function measured() {
  const { service, worker } = startPlayground();
  const { id, take } = await open(service, text({ rows: 4000 }));
  await service.kept(id);
  const answer = await whole(service, take);
  await expect.poll(() => answerFiles(id)).toHaveLength(1);
  worker.terminate();
  return { id, take, answer };
}

/** The next worker, with the recording at hand again. */
async function reloaded(id: string) {
  const started = startPlayground();
  expect((await started.service.reopen(id, {})).ok).toBe(true);
  return started;
}

async function folderOf(id: string) {
  const root = await navigator.storage.getDirectory();
  return (await root.getDirectoryHandle("captures")).getDirectoryHandle(id);
}

async function answerFiles(id: string): Promise<FileSystemFileHandle[]> {
  const found: FileSystemFileHandle[] = [];
  for await (const [name, entry] of (await folderOf(id)).entries()) {
    if (name.endsWith(".coming")) continue;
    if (name.startsWith("answer-")) found.push(entry as FileSystemFileHandle);
  }
  return found;
}

describe("kept answers", { timeout: 60_000 }, () => {
  test("are the same after a reload, and nothing is measured", async () => {
    const { id, take, answer } = await measured();
    const { service } = await reloaded(id);
    await service.sweep();
    expect(difference(await whole(service, take), answer)).toBe(null);
    expect(await service.wholes()).toBe(0);
  });

  test("are not taken where the corrections, the bank, a limit or an edit changed", async () => {
    const { id, take } = await measured();
    const { service } = await reloaded(id);
    const changes = [
      [{ corrections: corrected }, {}],
      [{ bank: 2 }, {}],
      [{}, { limits: { soundStore: 0.4 } }],
      [{}, { edits: [{ kind: "reject", id: "1", because: "" }] }],
    ] as const;
    for (const [k, [change, choices]] of changes.entries()) {
      await whole(service, { ...take, ...change }, choices);
      expect(await service.wholes()).toBe(k + 1);
      await whole(service, take);
      expect(await service.wholes()).toBe(k + 1);
    }
  });

  test("are not taken from another version of the program, but told as they were, and then replaced", async () => {
    const { id, take, answer } = await measured();
    const { service } = await reloaded(id);
    expect(await service.wholeBefore({ take, choices: {} })).toMatchObject({ isCurrent: true });
    const { service: next } = await reloaded(id);
    await next.setVersion({ sources: "2", shapes: "1" });
    const before = await next.wholeBefore({ take, choices: {} });
    expect(before?.isCurrent).toBe(false);
    expect(difference(before?.answer, answer)).toBe(null);
    await whole(next, take);
    expect(await next.wholes()).toBe(1);
    expect(await answerFiles(id)).toHaveLength(1);
    expect(await next.wholeBefore({ take, choices: {} })).toMatchObject({ isCurrent: true });
    expect(await next.wholeBefore({ take, choices: { limits: { soundStore: 0.4 } } })).toBe(null);
  });

  test("are not even told where their shape is not known any more", async () => {
    const { id, take } = await measured();
    const { service } = await reloaded(id);
    await service.setVersion({ sources: "2", shapes: "2" });
    expect(await service.wholeBefore({ take, choices: {} })).toBe(null);
  });

  test("hold the last span that was looked at, and of those before it none", async () => {
    const { service, worker } = startPlayground();
    const { id, take } = await open(service, text({ rows: 4000 }));
    await service.kept(id);
    const spans = [2, 3].map((to) => ({ take, span: { from: 0, to }, limits: {} }));
    const [first, last] = [await service.measure(spans[0]!, inTurn), await service.measure(spans[1]!, inTurn)];
    await expect.poll(() => answerFiles(id)).toHaveLength(1);
    worker.terminate();
    const { service: next } = await reloaded(id);
    const reads = await next.reads();
    expect(difference(await next.measure(spans[1]!, inTurn), last)).toBe(null);
    expect(await next.reads()).toBe(reads); // out of its file, not out of samples
    expect(difference(await next.measure(spans[0]!, inTurn), first)).toBe(null);
  });

  test("are measured again where the file is cut short, changed or empty", async () => {
    const { id, take, answer } = await measured();
    const written = async () => (await (await answerFiles(id))[0]!.getFile()).text();
    const body = await written();
    for (const spoilt of [body.slice(0, -20), body.replace(/\d/g, "3"), ""]) {
      const stream = await (await answerFiles(id))[0]!.createWritable();
      await stream.write(spoilt);
      await stream.close();
      const { worker, service } = await reloaded(id);
      expect(difference(await whole(service, take), answer)).toBe(null);
      expect(await service.wholes()).toBe(1);
      await expect.poll(written).toBe(body);
      worker.terminate();
    }
  });
});
