// What is being done when the browser is killed. Each work notes what the page has called saved by then.

import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import type { Page } from "playwright";
import { recording } from "./recordings.ts";

/** What the page has called saved, by job. */
export interface Made {
  /** The number at the end of the notes. */
  readonly notes: Map<string, number>;
  /** SHA-256 of recordings. */
  readonly recordings: Map<string, Set<string>>;
  /** Names of the exhibits' drawings. */
  readonly exhibits: Map<string, Set<string>>;
}

export interface WorkGiven {
  readonly address: string;
  readonly bundle: Uint8Array;
  readonly made: Made;
  /** Another in each kill. */
  readonly mark: number;
  readonly random: () => number;
}

export interface Work {
  readonly name: string;
  /** The kill comes so long after its beginning, ms. */
  readonly from: number;
  readonly to: number;
  prepare?(page: Page, given: WorkGiven): Promise<void>;
  /** Ends when all is done, or the browser is dead. */
  run(page: Page, given: WorkGiven): Promise<void>;
}

const add = (to: Map<string, Set<string>>, job: string, one: string) =>
  to.set(job, new Set([...(to.get(job) ?? []), one]));

export const saved = (page: Page) =>
  page
    .getByRole("group", { name: "Job" })
    .filter({ hasText: /(^|· )saved$/ })
    .waitFor();

/** The job on the desk, as storage has it. */
function jobOnDesk(
  page: Page,
): Promise<{ readonly id: string; readonly exhibits: readonly { readonly svg: string }[] }> {
  return page.evaluate(async () => {
    const all = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const read = async (name: string, store: string, key: string) => {
      const database = await all(indexedDB.open(name));
      const value = await all(database.transaction(store).objectStore(store).get(key));
      database.close();
      return value;
    };
    const id = await read("tracewright-marks", "marks", "last");
    const text = JSON.parse(await read("tracewright-jobs", "jobs", id));
    return text.job ?? text;
  });
}

export async function openRecording(page: Page, bytes: Uint8Array, name: string): Promise<void> {
  await page
    .getByLabel("Recording file")
    .first()
    .setInputFiles({ name, mimeType: "text/csv", buffer: Buffer.from(bytes) });
  await page
    .getByRole("status")
    .filter({ hasText: `${name} is open` })
    .waitFor({ state: "attached" });
}

async function keepRecording(page: Page, { made, mark }: WorkGiven): Promise<void> {
  const { id } = await jobOnDesk(page);
  const bytes = recording(2_000 + ((mark * 7919) % 40_000), mark);
  await openRecording(page, bytes, `run-${mark}.csv`);
  await saved(page);
  add(made.recordings, id, createHash("sha256").update(bytes).digest("hex"));
}

/** One edit after the other; each is noted when the header has said of it that it is saved. */
async function editNotes(page: Page, { made, mark }: WorkGiven): Promise<void> {
  const { id } = await jobOnDesk(page);
  await page.getByRole("tab", { name: "Job", exact: true }).click();
  const notes = page.getByRole("textbox", { name: "Notes" });
  await notes.waitFor();
  for (let k = mark * 10_000; ; k++) {
    await notes.fill(`edit ${k}`);
    await saved(page);
    made.notes.set(id, k);
  }
}

async function makeExhibits(page: Page, { made }: WorkGiven): Promise<void> {
  for (;;) {
    await page.getByRole("button", { name: "Make exhibit" }).first().click();
    const dialog = page.getByRole("dialog");
    await dialog.getByRole("button", { name: "Make exhibit" }).click();
    await dialog.getByText("Made, and kept with the job").waitFor();
    const { id, exhibits } = await jobOnDesk(page);
    for (const { svg } of exhibits) add(made.exhibits, id, svg);
    await dialog.getByRole("button", { name: "Done" }).click();
  }
}

/** The same job under another id and name, with a recording of its own. */
function bundleAs(bundle: Uint8Array, mark: number) {
  const { "job.json": record, ...others } = unzipSync(bundle);
  const text = strFromU8(record!);
  const old = JSON.parse(text);
  const before: { id: string; fileName: string } = (old.job ?? old).captures[0];
  const bytes = recording(6_000, 1e6 + mark);
  const hash = createHash("sha256").update(bytes).digest("hex");
  const id = `bundle-${mark}-${hash.slice(0, 8)}`;
  const next = JSON.parse(text.replaceAll(before.id, hash));
  const job = next.job ?? next;
  job.id = id;
  job.name = `Bundle ${mark}`;
  job.captures[0].size = bytes.length;
  const kept = Object.entries(others).filter(([name]) => !name.startsWith("recordings/"));
  const entries = { ...Object.fromEntries(kept), [`recordings/${hash}/${before.fileName}`]: bytes };
  const exhibits: { svg: string }[] = job.exhibits;
  return { id, hash, exhibits, zip: zipSync({ "job.json": strToU8(JSON.stringify(next)), ...entries }, { level: 1 }) };
}

async function openBundle(page: Page, { bundle, made, mark }: WorkGiven): Promise<void> {
  const { id, hash, exhibits, zip } = bundleAs(bundle, mark);
  await page
    .getByLabel("Recording file")
    .first()
    .setInputFiles({ name: "job.zip", mimeType: "application/zip", buffer: Buffer.from(zip) });
  await page.getByRole("heading", { name: `Tracewright: Bundle ${mark}`, exact: true }).waitFor({ state: "attached" });
  await page.getByRole("button", { name: "Make exhibit" }).first().waitFor();
  await page.waitForTimeout(50);
  await saved(page);
  add(made.recordings, id, hash);
  for (const { svg } of exhibits) add(made.exhibits, id, svg);
}

/** What kills leave behind, laid down by hand, so that every sweep has something to do. */
async function leaveOrphans(page: Page, { address, mark }: WorkGiven): Promise<void> {
  await page.goto(`${address}icon-192.png`);
  await page.evaluate(async (number) => {
    const root = await navigator.storage.getDirectory();
    const captures = await root.getDirectoryHandle("captures", { create: true });
    const names = [String(number).padStart(64, "0"), String(number).padStart(64, "1"), `reading-${number}`];
    for (const [i, name] of names.entries()) {
      const folder = await captures.getDirectoryHandle(name, { create: true });
      for (const file of i === 0 ? ["record.json", "arrays-1", "original"] : ["arrays-1", "original.coming"]) {
        const writer = await (await folder.getFileHandle(file, { create: true })).createWritable();
        await writer.write(file === "record.json" ? JSON.stringify({ arrays: "arrays-1" }) : new Uint8Array(300_000));
        await writer.close();
      }
    }
    const opening = indexedDB.open("tracewright-pictures");
    await new Promise((resolve) => {
      opening.onsuccess = resolve;
    });
    const writing = opening.result.transaction("pictures", "readwrite");
    writing.objectStore("pictures").put(new Blob(["a picture"]), `nobody/left-${number}.png`);
    await new Promise((resolve) => {
      writing.oncomplete = resolve;
    });
    opening.result.close();
  }, mark);
}

async function sweep(page: Page, { address }: WorkGiven): Promise<void> {
  await page.goto(address);
}

export const works: readonly Work[] = [
  { name: "keeping a recording", from: 0, to: 2_500, run: keepRecording },
  { name: "saving edits", from: 200, to: 4_000, run: editNotes },
  { name: "making exhibits", from: 500, to: 6_000, run: makeExhibits },
  { name: "opening a bundle", from: 0, to: 4_000, run: openBundle },
  { name: "sweeping", from: 0, to: 5_000, prepare: leaveOrphans, run: sweep },
];

/** A job with a recording and an exhibit, made on the page and saved there as a bundle. */
export async function bundleOf(page: Page, made: Made): Promise<Uint8Array> {
  const bytes = recording(3_000, 0.5);
  await openRecording(page, bytes, "run.csv");
  await page.getByRole("button", { name: "Make exhibit" }).first().click();
  const dialog = page.getByRole("dialog");
  await dialog.getByRole("button", { name: "Make exhibit" }).click();
  await dialog.getByText("Made, and kept with the job").waitFor();
  await dialog.getByRole("button", { name: "Done" }).click();
  await saved(page);
  const { id, exhibits } = await jobOnDesk(page);
  add(made.recordings, id, createHash("sha256").update(bytes).digest("hex"));
  for (const { svg } of exhibits) add(made.exhibits, id, svg);
  const waiting = page.waitForEvent("download");
  await page.getByRole("button", { name: "More" }).click();
  await page.getByRole("button", { name: "Save job bundle" }).click();
  return new Uint8Array(readFileSync(await (await waiting).path()));
}
