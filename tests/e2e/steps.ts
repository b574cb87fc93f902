// Steps of the main job, as a user takes them, and the truth beside each sample.

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import type { Page } from "playwright";
import { root } from "../../src/command/setup.mjs";

export const samplePath = (file: string): string => join(root, "sample-traces", file);

/**
 * A scope's sample with every tenth of its rows, 100 a second, for what does not ask for all of them: less than half the work,
 * and the same truth.
 */
export function thinned(name: string): { name: string; mimeType: string; buffer: Buffer } {
  const [head, ...rows] = gunzipSync(readFileSync(samplePath(`${name}.csv.gz`)))
    .toString()
    .trimEnd()
    .split("\n");
  const kept = rows.filter((_, i) => i % 10 === 0);
  return { name: `${name}.csv`, mimeType: "text/csv", buffer: Buffer.from([head, ...kept].join("\n")) };
}

export interface Truth {
  readonly liftOffs: readonly {
    readonly at: number;
    readonly delay: number | null;
    readonly oxygenPassed: number | null;
  }[];
}

export function truthOf(name: string): Truth {
  return JSON.parse(readFileSync(samplePath(`${name}.truth.json`), "utf8")) as Truth;
}

/** Opens a file through the chooser's input and waits until the page says that it is open. */
export async function openFile(page: Page, path: string | { name: string; mimeType: string; buffer: Buffer }) {
  await page.getByLabel("Recording file").first().setInputFiles(path);
  const name = typeof path === "string" ? path.split("/").pop()! : path.name;
  await page
    .getByRole("status")
    .filter({ hasText: `${name} is open` })
    .waitFor({ timeout: 60_000, state: "attached" });
}

/** Lets files fall on the page, as the desktop would. */
export async function dropFiles(page: Page, files: readonly { name: string; bytes: Buffer | null }[]) {
  const transfer = await page.evaluateHandle(
    (list) => {
      const data = new DataTransfer();
      for (const { name, base64 } of list) {
        const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
        data.items.add(new File([bytes], name));
      }
      return data;
    },
    files.map(({ name, bytes }) => ({ name, base64: (bytes ?? Buffer.alloc(0)).toString("base64") })),
  );
  for (const type of ["dragenter", "dragover", "drop"]) {
    await page.dispatchEvent("body", type, { dataTransfer: transfer });
  }
}

/** Waits until the header says that all that was done is saved; "not saved" and "saving" are other words. */
export const isSaved = (page: Page) =>
  page
    .getByRole("group", { name: "Job" })
    .filter({ hasText: /(^|· )saved$/ })
    .waitFor();

/** The buttons of the lift-off list, once there are `count`. */
export async function liftOffs(page: Page, count: number) {
  const list = page.getByRole("button", { name: /^Lift-off \d+ at/ });
  await list.nth(count - 1).waitFor({ timeout: 60_000 });
  return list.all();
}

/** What a reading's text on the screen claims: bounds in s, g, Hz … as shown, milliseconds turned to seconds. */
export function claimOf(text: string): { readonly low: number; readonly high: number } {
  const clean = text.replace(/−/g, "-").replaceAll("\u202f", "").replaceAll("\u00a0", " ");
  const scale = /\bms\b/.test(clean) ? 1e-3 : 1;
  const numbers = [...clean.matchAll(/-?\d+(?:\.\d+)?/g)].map((m) => Number(m[0]) * scale);
  if (/at most/.test(clean)) return { low: 0, high: numbers[0]! };
  if (/at least/.test(clean)) return { low: numbers[0]!, high: Infinity };
  return { low: numbers[1]!, high: numbers[2]! };
}

/** Makes the exhibit that the page offers for what it shows, and downloads its PNG; the sheet stays open. */
export async function makeExhibit(page: Page): Promise<Buffer> {
  await page.getByRole("button", { name: "Make exhibit" }).first().click();
  const dialog = page.getByRole("dialog");
  await dialog.getByRole("img", { name: /Preview/ }).waitFor();
  await dialog.getByRole("button", { name: "Make exhibit" }).click();
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: /PNG/ }).first().click();
  return readFileSync(await (await download).path());
}

export const lanes = (page: Page) => page.getByRole("application", { name: /^Traces/ });
/** "158 … 166 s": the span in view, as it is told. */
export const viewOf = async (page: Page): Promise<string> =>
  (await lanes(page).getAttribute("aria-label"))!.match(/, (.*?)\. Arrow/)![1]!;
