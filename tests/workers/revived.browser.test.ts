// A capture worker that dies is started again; what was at hand is there again, and no call waits for ever.

import { afterEach, expect, test } from "vitest";
import { type CaptureClient, startCaptureClient } from "../../workers/client.ts";
import { clearCaptures } from "./playground.ts";

let client: CaptureClient | null = null;
afterEach(async () => {
  client?.close();
  await clearCaptures();
});

function setUp() {
  const workers: Worker[] = [];
  const told: unknown[] = [];
  const start = () => {
    const worker = new Worker(new URL("./playground.worker.ts", import.meta.url), { type: "module" });
    workers.push(worker);
    return worker;
  };
  client = startCaptureClient({ start, onRevived: (problem) => told.push(problem?.code ?? null) });
  return { client, told, workers, kill: () => workers.at(-1)!.postMessage("die") };
}

const file = (rows: number) => new File([new Float32Array(rows).map((_, i) => Math.sin(i / 30))], "bare.bin");

async function opened(client: CaptureClient) {
  const outcome = await client.open({ file: file(50_000), name: "bare.bin", choices: {} }, () => {});
  if (!outcome.ok) throw new Error(outcome.problem.what);
  return outcome.value;
}

test("what was at hand is brought back, out of storage or out of its file, and answers as before", async () => {
  const { client, told, kill, workers } = setUp();
  const { take, span, id } = await opened(client);
  const ask = () => client.window({ take, channelIds: ["c1"], span, width: 300 });
  const before = await ask();
  await client.kept(id);
  kill();
  expect(await ask()).toEqual(before);
  await clearCaptures();
  kill();
  expect(await ask()).toEqual(before);
  expect([told, workers.length]).toEqual([[null, null], 3]);
});

test("a call under way when it dies is asked again; the opening that killed it is told", async () => {
  const { client, kill } = setUp();
  const { take, span } = await opened(client);
  const measured = client.measure({ take, span, limits: {} }, { urgency: "span" });
  kill();
  expect((await measured).ok).toBe(true);
  const opening = client.open({ file: file(4_000_000), name: "bare.bin", choices: {} }, () => {});
  kill();
  expect(await opening).toMatchObject({ ok: false, problem: { code: "fault" } });
  expect((await client.window({ take, channelIds: ["c1"], span, width: 300 })).length).toBe(1);
});

test("a worker that cannot be started is told, and is not waited for", async () => {
  const start = () => new Worker(new URL("/nothing-here.js", location.href), { type: "module" });
  client = startCaptureClient({ start });
  expect(await client.reopen("a", {})).toMatchObject({ ok: false, problem: { code: "fault" } });
});
