// Storage that is denied, full or gone: at the start, between two visits, and at twenty moments of a job's life.
//
// npm run trial:storage -- 20

import type { Page } from "playwright";
import { startStaticServer } from "../e2e/static-server.ts";
import { newProfile, type Running, startBrowser } from "./browser.ts";
import { bundleOf, type Made, openRecording, saved } from "./kill-works.ts";
import { recording } from "./recordings.ts";
import { isWhole, lookInto, passesForWhole } from "./stored.ts";
import { built, type Part } from "./table.ts";

type Row = readonly [what: string, told: string, wrong: string];

/** Runs in the page: the browser lets it keep nothing. */
function denyAll(): void {
  const no = () => new DOMException("no", "SecurityError");
  Object.defineProperty(IDBFactory.prototype, "open", {
    value: () => {
      throw no();
    },
  });
  Object.defineProperty(StorageManager.prototype, "getDirectory", { value: () => Promise.reject(no()) });
}

/** @param count  moments at which storage gets full. */
export async function storage(count: number, _from: number, until = Number.POSITIVE_INFINITY): Promise<Part> {
  const server = await startStaticServer(built);
  const rows: Row[] = [];
  const add = async (
    what: string,
    work: (running: Running, address: string) => Promise<string>,
    prepare?: () => void,
  ) => {
    if (Date.now() > until) return;
    const profile = newProfile();
    const running = await startBrowser(profile.folder, server.address, prepare);
    let [told, wrong] = ["", ""];
    try {
      told = await work(running, server.address);
    } catch (error) {
      wrong = String(error).split("\n")[0]!;
    } finally {
      const noise = running.noise.map((text) => `console: ${text.slice(0, 150)}`);
      wrong = [wrong, ...noise].filter(Boolean).join("; ");
      await running.kill();
      profile.remove();
    }
    rows.push([what, told, wrong]);
    process.stderr.write(`${what}: ${told}${wrong ? `  WRONG ${wrong}` : ""}\n`);
  };
  await add("denied from the start", deniedWork, denyAll);
  await add("full at the start", fullAtStart);
  await add("evicted between two visits", evicted);
  await add("taken out while full", takenOutWhileFull);
  for (let moment = 1; moment <= count; moment++) {
    await add(`full from moment ${moment} on`, (running, address) => fullFrom(running, address, moment));
  }
  await server.stop();
  const wrong = rows.filter((row) => row[2] !== "").length;
  return {
    name: "Storage refused",
    about: `${rows.length} cases; faults: ${wrong}. After each full storage there is room again, and all that was done is saved by itself. \`npm run trial:storage -- 20\``,
    columns: ["case", "what was told", "wrong"],
    rows,
    isGood: wrong === 0,
  };
}

/** Everything works in memory, and it is said that it will not be kept; an exhibit is made and downloaded. */
async function deniedWork({ page }: Running, address: string): Promise<string> {
  await page.goto(address);
  await openRecording(page, recording(3_000, 1), "run.csv");
  await page
    .getByRole("group", { name: "Job" })
    .filter({ hasText: /not saved/ })
    .waitFor();
  const told = await saidOn(page);
  if (told === "") throw new Error("nothing was said");
  await exhibitDownloaded(page);
  return told;
}

async function exhibitDownloaded(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Make exhibit" }).first().click();
  const dialog = page.getByRole("dialog");
  await dialog.getByRole("button", { name: "Make exhibit" }).click();
  const download = page.waitForEvent("download");
  await dialog.getByRole("button", { name: /PNG/ }).first().click();
  await (await download).path();
  await dialog.getByRole("button", { name: "Done" }).click();
}

async function fullAtStart({ page }: Running, address: string): Promise<string> {
  await page.goto(address);
  const quota = await quotaOf(page, address);
  await quota(1);
  await openRecording(page, recording(60_000, 2), "run.csv");
  await page
    .getByRole("group", { name: "Job" })
    .filter({ hasText: /not saved|not kept/ })
    .waitFor();
  const told = await saidOn(page);
  if (told === "") throw new Error("nothing was said");
  await exhibitDownloaded(page);
  return told;
}

async function evicted({ page }: Running, address: string): Promise<string> {
  await page.goto(address);
  await bundleOf(page, nothingMade());
  await page.goto("about:blank");
  const session = await page.context().newCDPSession(page);
  await session.send("Storage.clearDataForOrigin", { origin: new URL(address).origin, storageTypes: "all" });
  await page.goto(address);
  await page.getByRole("heading", { name: "Is it really the catalyst?" }).waitFor();
  await openRecording(page, recording(3_000, 3), "run.csv");
  await saved(page);
  return "an empty bench; work begins anew";
}

/** At a full quota a recording and an exhibit go out of the job: that is saved, and their bytes come back, with no more room given. */
async function takenOutWhileFull({ page }: Running, address: string): Promise<string> {
  await page.goto(address);
  const quota = await quotaOf(page, address);
  await openRecording(page, recording(60_000, 7), "first.csv");
  await exhibitDownloaded(page);
  await openRecording(page, recording(20_000, 8), "second.csv");
  await saved(page);
  const before = await usedBy(page);
  await quota(before);
  await page.getByRole("tab", { name: "Job", exact: true }).click();
  const list = page.getByRole("region", { name: "Recordings" });
  await list
    .getByRole("button", { name: /^first\.csv/ })
    .first()
    .click();
  await takeOut(page);
  await page.getByRole("tab", { name: "Job", exact: true }).click();
  await page.getByRole("button", { name: "Remove", exact: true }).first().click();
  await page.getByText(/^Removed:/).waitFor();
  await saved(page);
  for (let tries = 0; ; tries++) {
    const { jobs, folders } = await lookInto(page);
    const job = jobs.find(({ captures }) => captures.length === 1);
    if (job?.exhibits.length === 0 && folders.length === 1) break;
    if (tries > 60)
      throw new Error(`left: ${jobs.length} jobs, ${folders.length} folders, ${job?.exhibits.length} exhibits`);
    await page.waitForTimeout(500);
  }
  const freed = before - (await usedBy(page));
  if (freed < 1e6) throw new Error(`${freed} bytes came back`);
  return `${(freed / 1e6).toFixed(1)} MB came back`;
}

/** A job's life in steps; before the one of this number storage gets full, and room again when all are done. */
async function fullFrom({ page }: Running, address: string, moment: number): Promise<string> {
  await page.goto(address);
  const quota = await quotaOf(page, address);
  const told = new Set<string>();
  const steps = lifeOf(page);
  for (const [i, step] of steps.entries()) {
    if (i === (moment - 1) % steps.length) await quota(await usedBy(page));
    await step();
    const said = await saidOn(page);
    if (said) told.add(said);
  }
  await quota(null);
  await page.getByRole("textbox", { name: "Job name" }).fill(`After ${moment}`);
  await page.getByRole("textbox", { name: "Job name" }).press("Enter");
  await saved(page);
  const stored = await lookInto(page);
  if (!stored.jobs.some(({ name, notes }) => name === `After ${moment}` && notes === "three"))
    throw new Error("an edit is lost");
  for (const folder of stored.folders) {
    if (passesForWhole(folder) && !(await isWhole(folder))) throw new Error("half a recording passes for whole");
  }
  return [...told].join(" / ");
}

function lifeOf(page: Page): readonly (() => Promise<void>)[] {
  const notes = (text: string) => async () => {
    await page.getByRole("tab", { name: "Job", exact: true }).click();
    await page.getByRole("textbox", { name: "Notes" }).fill(text);
  };
  return [
    () => openRecording(page, recording(20_000, 4), "first.csv"),
    notes("one"),
    () => exhibitDownloaded(page),
    () => openRecording(page, recording(30_000, 5), "second.csv"),
    notes("two"),
    () => exhibitDownloaded(page),
    async () => {
      await page.getByRole("tab", { name: "Job", exact: true }).click();
      await takeOut(page);
    },
    () => openRecording(page, recording(10_000, 6), "third.csv"),
    notes("three"),
    () => exhibitDownloaded(page),
  ];
}

async function takeOut(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Take it out of the job" }).first().click();
  await page.getByRole("button", { name: /^Take it out, with all/ }).click();
}

const nothingMade = (): Made => ({ notes: new Map(), recordings: new Map(), exhibits: new Map() });

/** Bytes of the origin's storage. */
const usedBy = (page: Page) => page.evaluate(async () => (await navigator.storage.estimate()).usage ?? 0);

/** Sets how much may be stored from now on, bytes; null: as the browser has it. */
async function quotaOf(page: Page, address: string): Promise<(bytes: number | null) => Promise<void>> {
  const session = await page.context().newCDPSession(page);
  const { origin } = new URL(address);
  return async (bytes) => {
    await session.send(
      "Storage.overrideQuotaForOrigin",
      bytes === null ? { origin } : { origin, quotaSize: Math.max(1, bytes) },
    );
  };
}

async function saidOn(page: Page): Promise<string> {
  const note = page.locator(".problem-note").first();
  return (await note.isVisible()) ? ((await note.locator(".what").textContent()) ?? "") : "";
}
