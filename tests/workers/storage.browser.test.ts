import { proxy } from "comlink";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { CaptureService, CaptureSummary } from "../../workers/protocol.ts";
import { isLongForm } from "../share.ts";
import { inTurn } from "./larger-files.ts";
import { captureFolders, clearCaptures, startPlayground as start } from "./playground.ts";

beforeEach(clearCaptures);
afterEach(clearCaptures);

/** A slow swing, one spike of one sample, one pause of missing samples. */
function recording(count: number): File {
  const samples = Float32Array.from({ length: count }, (_, i) => 0.5 + 0.4 * Math.sin(i / 700));
  samples[Math.floor(count / 3)] = 3;
  samples.fill(Number.NaN, Math.floor(count / 2), Math.floor(count / 2) + 500);
  return new File([samples], "bare.bin");
}

async function open(service: Pick<CaptureService, "open">, file: File): Promise<CaptureSummary> {
  const outcome = await service.open(
    { file, name: file.name, choices: {} },
    proxy(() => {}),
  );
  if (!outcome.ok) throw new Error(outcome.problem.what);
  return outcome.value;
}

const whole = (summary: CaptureSummary, width: number) => ({
  take: summary.take,
  channelIds: ["c1", "c2"],
  span: summary.span,
  width,
});

const folderOf = async (id: string) => {
  const captures = await (await navigator.storage.getDirectory()).getDirectoryHandle("captures", { create: true });
  return captures.getDirectoryHandle(id, { create: true });
};
const fileOf = async (id: string, name: string) => (await (await folderOf(id)).getFileHandle(name)).getFile();
const bytesOf = async (id: string, name: string) => new Uint8Array(await (await fileOf(id, name)).arrayBuffer());
async function put(id: string, name: string, bytes: string | Uint8Array<ArrayBuffer>): Promise<void> {
  const file = await (await (await folderOf(id)).getFileHandle(name, { create: true })).createWritable();
  await file.write(bytes);
  await file.close();
}
async function flipBit(id: string, name: string, at: number): Promise<void> {
  const byte = new Uint8Array(await (await fileOf(id, name)).slice(at, at + 1).arrayBuffer());
  const file = await (await (await folderOf(id)).getFileHandle(name)).createWritable({ keepExistingData: true });
  await file.write({ type: "write", position: at, data: byte.map((was) => was ^ 1) });
  await file.close();
}
/** What is written of the columns so far; 0 while there is none. */
async function bytesOfColumns(id: string): Promise<number> {
  for await (const name of (await folderOf(id)).keys()) {
    if (name.startsWith("arrays-")) return (await fileOf(id, name)).size;
  }
  return 0;
}
const sha256 = async (file: Blob) => new Uint8Array(await crypto.subtle.digest("SHA-256", await file.arrayBuffer()));

describe("captures kept by the browser", { timeout: 60_000 }, () => {
  test("leave memory where they are too large for it, and give the same pictures and readings from storage", async () => {
    const file = recording(1_000_003);
    const answers = async (room: number) => {
      const { worker, service } = start();
      await service.setRoom(room);
      const summary = await open(service, file);
      expect(await service.kept(summary.id)).toBeNull();
      const span = { from: 320.25, to: 350.5 };
      const narrow = { ...whole(summary, 1000), span: { from: 333, to: 333.5 } };
      const found = {
        windows: await service.window(narrow),
        readings: await service.measure({ take: summary.take, span, limits: {} }, inTurn),
        saved: await service.saveSpan({ take: summary.take, channelIds: ["c2"], span, format: "csv" }),
      };
      const isRead = (await service.reads()) > 0;
      worker.terminate();
      await clearCaptures();
      return { isRead, ...found, saved: found.saved.ok && (await found.saved.value.text()) };
    };
    const inMemory = await answers(2 ** 30);
    expect(inMemory.readings.ok).toBe(true);
    expect(inMemory.isRead).toBe(false);
    expect(await answers(2 ** 22)).toEqual({ ...inMemory, isRead: true });
  });

  test("leave memory once two others were used after them, and are read back when they are wanted", async () => {
    const { service } = start();
    const opened = [];
    for (const count of [50_000, 50_001, 50_002]) {
      opened.push(await open(service, recording(count)));
      expect(await service.kept(opened.at(-1)!.id)).toBeNull();
    }
    const [first, ...others] = opened;
    await expect.poll(() => service.finds()).toBe(1);
    const readsOf = async (summary: CaptureSummary) => {
      const before = await service.reads();
      const [window] = await service.window({ ...whole(summary, 1000), span: { from: 33, to: 33.5 } });
      return { values: window!.values, reads: (await service.reads()) - before };
    };
    const inMemory = await Promise.all(others.map(readsOf));
    expect(inMemory.map(({ reads }) => reads)).toEqual([0, 0]);
    const again = await readsOf(first!);
    expect(again.reads).toBeGreaterThan(0);
    expect(again.values).toEqual(inMemory[0]!.values);
  });

  test("are kept once more where storage was emptied under them and memory has them; else that is told", async () => {
    const { service } = start();
    const opened = [];
    for (const count of [50_000, 50_001, 50_002]) opened.push(await open(service, recording(count)));
    const [first, , last] = opened;
    for (const { id } of opened) expect(await service.kept(id)).toBeNull();
    await expect.poll(() => service.finds()).toBe(1);
    for (const { id } of opened) await (await folderOf(id)).removeEntry("record.json"); // a file that is read would stay
    expect((await service.kept(first!.id, true))?.code).toBe("unreadable");
    expect(await service.kept(last!.id, true)).toBeNull();
    expect((await start().service.reopen(last!.id, {})).ok).toBe(true);
  });

  test("are the same after a reload", async () => {
    const file = recording(1_500_007);
    const first = start();
    const summary = await open(first.service, file);
    expect(await first.service.kept(summary.id)).toBeNull();
    const narrow = { ...whole(summary, 1000), span: { from: 999.5, to: 1000.5 } };
    const [seenWhole, seenNarrow] = [
      await first.service.window(whole(summary, 700)),
      await first.service.window(narrow),
    ];
    first.worker.terminate();

    const second = start();
    const again = await second.service.reopen(summary.id, {});
    expect(again).toEqual({ ok: true, value: summary });
    expect(await second.service.window(narrow)).toEqual(seenNarrow);
    const values = await second.service.valuesAt(summary.take, ["c1", "c2"], 1234.5);
    expect(values.map(({ value }) => value)).toEqual([
      expect.closeTo(0.5 + 0.4 * Math.sin(1_234_500 / 700), 6),
      expect.any(Number),
    ]);
    const seenAgain = await second.service.window(whole(summary, 700));
    for (const [i, { values: drawn, times }] of seenAgain.entries()) {
      expect(Math.max(...drawn.filter((v) => !Number.isNaN(v)))).toBe(3);
      expect(Math.abs(times.length - seenWhole[i]!.times.length)).toBeLessThan(8);
    }
    expect(await sha256((await second.service.file(summary.id))!)).toEqual(await sha256(file));
  });

  test("are read in two tabs at once where the browser's own handles are for one alone", async () => {
    const [one, other] = [start(), start()];
    for (const { service } of [one, other]) await service.refuse("alone");
    await one.service.setRoom(2 ** 22);
    const summary = await open(one.service, recording(1_000_003));
    expect(await one.service.kept(summary.id)).toBeNull();
    const narrow = { ...whole(summary, 1000), span: { from: 333, to: 333.5 } };
    const seen = await one.service.window(narrow);
    expect(Math.max(...seen[0]!.values)).toBe(3);
    expect(await other.service.reopen(summary.id, {})).toEqual({ ok: true, value: summary });
    expect(await other.service.window(narrow)).toEqual(seen);
    expect(await one.service.window(narrow)).toEqual(seen);
  });

  test("survive a tab killed while it writes the next one", async () => {
    const first = start();
    const kept = await open(first.service, recording(10_000));
    expect(await first.service.kept(kept.id)).toBeNull();
    await first.service.refuse("stalled");
    const killed = await open(first.service, recording(20_000));
    await expect.poll(() => bytesOfColumns(killed.id)).toBeGreaterThan(0);
    first.worker.terminate();

    const second = start();
    expect((await second.service.reopen(kept.id, {})).ok).toBe(true);
    expect(await second.service.reopen(killed.id, {})).toMatchObject({ ok: false, problem: { code: "unreadable" } });
    expect(await captureFolders()).toHaveLength(2);
    // The browser lets go of a dead worker's locks a moment later.
    const left = () => second.service.sweep().then(captureFolders);
    await expect.poll(left).toEqual([kept.id]);
  });

  test("are read again when the choices changed", async () => {
    const { service } = start();
    const summary = await open(service, recording(10_000));
    await service.kept(summary.id);
    const again = await service.reopen(summary.id, { bank: 2 });
    expect(again.ok && again.value.id).toBe(summary.id);
    expect(await service.kept(summary.id)).toBeNull();
    expect((await start().service.reopen(summary.id, { bank: 2 })).ok).toBe(true);
  });

  test("are gone when forgotten", async () => {
    const { service } = start();
    const summary = await open(service, recording(10_000));
    await service.kept(summary.id);
    await service.forget(summary.id);
    expect(await service.reopen(summary.id, {})).toMatchObject({ ok: false, problem: { code: "unreadable" } });
  });

  test("are kept though the browser does not answer the first time a file is opened for writing", async () => {
    const { service } = start();
    await service.refuse("mute");
    const summary = await open(service, recording(100_000));
    expect(await service.kept(summary.id)).toBeNull();
    expect((await service.file(summary.id))?.size).toBe(400_000);
  });

  test.each([
    ["denied", "storage-denied"],
    ["absent", "storage-denied"],
    ["full", "storage-full"],
  ] as const)("with storage %s there is a clear problem, and work goes on in memory", async (storage, code) => {
    const { service } = start();
    await service.refuse(storage);
    const summary = await open(service, recording(10_000));
    expect(await service.kept(summary.id)).toMatchObject({ code });
    const windows = await service.window(whole(summary, 100));
    expect(windows[0]!.times.length).toBeGreaterThan(0);
  });
});

describe("what comes out of storage is what went in", () => {
  const arraysOf = async (id: string): Promise<string> =>
    JSON.parse(new TextDecoder().decode(await bytesOf(id, "record.json"))).arrays;

  /** A recording in storage, and no worker at hand any more. */
  async function kept(count = 10_000): Promise<CaptureSummary> {
    const first = start();
    const summary = await open(first.service, recording(count));
    expect(await first.service.kept(summary.id)).toBeNull();
    first.worker.terminate();
    await new Promise((resolve) => setTimeout(resolve, 100)); // the browser lets go of its files
    return summary;
  }
  /** What is drawn after another visit; null where there is nothing. */
  async function drawn(id: string): Promise<number | null> {
    const { service } = start();
    const again = await service.reopen(id, {});
    if (!again.ok) return null;
    expect(await service.kept(id)).toBeNull();
    const [first] = await service.window({ ...whole(again.value, 50), take: again.value.take });
    return Math.max(...first!.values.filter((v) => !Number.isNaN(v)));
  }

  test.each([
    ["emptied", (bytes: Uint8Array<ArrayBuffer>) => bytes.subarray(0, 0)],
    ["halved", (bytes: Uint8Array<ArrayBuffer>) => bytes.subarray(0, bytes.length / 2)],
    ["zeroed", (bytes: Uint8Array<ArrayBuffer>) => bytes.fill(0)],
    [
      "flipped in one bit",
      (bytes: Uint8Array<ArrayBuffer>) => bytes.with(bytes.length / 2, bytes[bytes.length / 2]! ^ 1),
    ],
  ])("columns that were %s are read anew from the file, never shown", async (_, change) => {
    const { id } = await kept();
    const arrays = await arraysOf(id);
    await put(id, arrays, change(await bytesOf(id, arrays)) as Uint8Array<ArrayBuffer>);
    expect(await drawn(id)).toBe(3);
    expect(await arraysOf(id)).not.toBe(arrays);
  });

  // Twice 35 MB of columns are written and looked through.
  test.runIf(isLongForm)(
    "large columns are looked through after the first picture, and told",
    { timeout: 90_000 },
    async () => {
      const summary = await kept(2_800_003);
      const arrays = await arraysOf(summary.id);
      const { size } = await fileOf(summary.id, arrays);
      expect(size).toBeGreaterThan(32 << 20); // smaller ones are looked through before anything is shown
      await flipBit(summary.id, arrays, size - 100);
      const { service } = start();
      expect((await service.reopen(summary.id, {})).ok).toBe(true);
      expect(await service.kept(summary.id)).toMatchObject({ code: "damaged" });
      expect((await service.reopen(summary.id, {})).ok).toBe(true);
      expect(await service.kept(summary.id)).toBeNull();
    },
  );

  test("a file whose bytes are not what was opened goes into no bundle, and is not read as if it were", async () => {
    const { id } = await kept();
    expect(await start().service.sha256(id)).toEqual({ ok: true, value: id });
    await flipBit(id, "original", 5);
    const { service } = start();
    const digest = await service.sha256(id);
    expect(digest.ok && /^[0-9a-f]{64}$/.test(digest.value) && digest.value !== id).toBe(true);
    expect(await service.wholeFile(id)).toMatchObject({ ok: false, problem: { code: "damaged" } });
    expect(await service.wholeFile(id)).toMatchObject({ ok: false, problem: { code: "unreadable" } });
    expect(await captureFolders()).toEqual([id]);
  });

  test.each([
    ["of no bytes", ""],
    ["cut off", '{"version":4,"arr'],
    ["of another kind", "[1]"],
  ])("a record %s counts as none: nothing hangs, and the sweep goes on", async (_, text) => {
    const { id } = await kept();
    for (const name of ["0-killed", "zz-killed"]) await put(name, "record.json", text);
    const { service } = start();
    expect(await service.reopen("0-killed", {})).toMatchObject({ ok: false, problem: { code: "unreadable" } });
    expect(await service.file("zz-killed")).toBeNull();
    await service.sweep();
    expect(await captureFolders()).toEqual([id]);
  });

  test("a folder that another tab sweeps meanwhile stops no list", async () => {
    const { id } = await kept();
    await put("0-vanishing", "record.json", "");
    const { service } = start();
    await service.refuse("vanishing");
    expect((await service.stored()).map((one) => one.id)).toEqual([id]);
  });

  test("what another tab has at hand is not removed, and is listed with its size", async () => {
    const one = start();
    const summary = await open(one.service, recording(10_000));
    await one.service.kept(summary.id);
    const other = start();
    await other.service.forget(summary.id);
    expect(await other.service.stored()).toMatchObject([{ id: summary.id, name: "bare.bin" }]);
    expect((await other.service.stored())[0]!.bytes).toBeGreaterThan(40_000 * 3);
    await one.service.forget(summary.id);
    expect(await other.service.stored()).toEqual([]);
  });
});
