// A shelf of 50 traces of 10 million samples each, in the built page: opening it and choosing one stays fluid.

import { join } from "node:path";
import type { Page } from "playwright";
import { root } from "../../src/command/setup.mjs";
import { type Bench, ms } from "./bench.ts";
import { largeFile } from "./files.ts";
import { inBrowser } from "./in-browser.ts";

const traces = 50;
/** Four channels: 10 million samples. */
const rows = 2_500_000;
/** A second of a fluid page: no frame waits longer than this, ms. */
const fluid = 100;

export const bench: Bench = {
  name: "shelf",
  async run() {
    const file = largeFile("wav", rows);
    const browser = await inBrowser(join(root, "dist"));
    const { page } = browser;
    // The runner's compiler names functions by a helper that a page does not have.
    await page.addInitScript({ content: "globalThis.__name = (given) => given;" });
    await page.reload();
    const opened = await timed(page, async () => {
      await browser.choose(file.path);
      await page.getByRole("status").filter({ hasText: "is open" }).waitFor({ state: "attached", timeout: 120_000 });
    });
    await page.waitForTimeout(5000);
    const empty = await timed(page, () => openShelf(page, 3));
    await page.getByRole("button", { name: /Keep this recording/ }).click();
    await page.getByLabel("Name", { exact: true }).fill("Trace 0");
    await page.getByLabel("Who says it is good").fill("bench");
    await page.getByLabel("Why").fill("bench");
    await page.getByRole("button", { name: "Keep as known-good" }).click();
    await page.getByRole("button", { name: "Compare with Trace 0" }).waitFor({ timeout: 120_000 });
    await page.evaluate(copyTraces, traces);
    await page.reload();
    await page.getByRole("button", { name: "Compare", exact: true }).waitFor({ timeout: 60_000 });
    await page.waitForTimeout(8000);
    const full = await timed(page, () => openShelf(page, traces + 3));
    const chosen = await timed(page, async () => {
      await page.getByRole("button", { name: "Compare with Trace 33", exact: true }).click();
      await page.getByText("Against Trace 33").waitFor({ timeout: 120_000 });
    });
    await browser.close();
    return [
      {
        what: `shelf of ${traces} traces of 10 million samples opened`,
        budget: `no frame longer than ${fluid} ms`,
        figure: `${ms(full.all)}, longest frame ${ms(full.longest)}`,
        peer: `shelf without them ${ms(empty.all)}`,
        ratio: `${(full.all / empty.all).toFixed(1)}x`,
        holds: full.longest <= fluid,
      },
      {
        what: "one of them chosen, until it lies under the suspect",
        budget: `no frame longer than ${fluid} ms, faster than opening its file`,
        figure: `${ms(chosen.all)}, longest frame ${ms(chosen.longest)}`,
        peer: `its file opened ${ms(opened.all)}`,
        ratio: `${(chosen.all / opened.all).toFixed(2)}x`,
        holds: chosen.longest <= fluid && chosen.all < opened.all,
      },
    ];
  },
};

async function openShelf(page: Page, count: number) {
  await page.getByRole("button", { name: "Compare", exact: true }).click();
  const offers = page.getByRole("button", { name: /^Compare with / });
  await offers.nth(count - 1).waitFor({ timeout: 60_000 });
}

/** How long it took, and the longest wait for a frame meanwhile, ms. */
async function timed(page: Page, work: () => Promise<void>): Promise<{ all: number; longest: number }> {
  await page.evaluate(() => {
    const frames = { longest: 0, last: performance.now() };
    Object.assign(globalThis, { frames });
    const tick = (now: number) => {
      frames.longest = Math.max(frames.longest, now - frames.last);
      frames.last = now;
      requestAnimationFrame(tick);
    };
    requestAnimationFrame(tick);
  });
  const start = performance.now();
  await work();
  const all = performance.now() - start;
  const longest = await page.evaluate(() => (globalThis as unknown as { frames: { longest: number } }).frames.longest);
  return { all, longest };
}

/** In the page: the one trace kept, and its samples, laid down again under other names. */
async function copyTraces(count: number): Promise<void> {
  const done = <T>(request: IDBRequest<T>) =>
    new Promise<T>((resolve, reject) => {
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
  const base = await done(indexedDB.open("tracewright-shelf"));
  const store = () => base.transaction("traces", "readwrite").objectStore("traces");
  const first = JSON.parse((await done(store().getAll()))[0] as string);
  const captures = await (await navigator.storage.getDirectory()).getDirectoryHandle("captures");
  const from = await captures.getDirectoryHandle(first.captureId);
  for (let k = 1; k < count; k++) {
    const captureId = k.toString(16).padStart(64, "0");
    const to = await captures.getDirectoryHandle(captureId, { create: true });
    for await (const [name, handle] of from.entries()) {
      if (handle.kind !== "file") continue;
      const part = await (await to.getFileHandle(name, { create: true })).createWritable();
      await part.write(await (handle as FileSystemFileHandle).getFile());
      await part.close();
    }
    await done(store().put(JSON.stringify({ ...first, id: `${k}`, name: `Trace ${k}`, captureId }), `${k}`));
  }
  base.close();
}
