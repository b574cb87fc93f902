// Suspect against known-good on the built page: keep, share, open, lay under, read, exhibit. The truth is the simulator's.
// One job goes through all of it, as a workshop's would: each test takes up where the one before it ended.

import { readFileSync } from "node:fs";
import type { Page } from "playwright";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readWords } from "../ocr.ts";
import { beyondTheWindow, leave, useBrowser, type Visit } from "./page.ts";
import { claimOf, isSaved, liftOffs, makeExhibit, openFile, thinned, truthOf, viewOf } from "./steps.ts";

const browser = useBrowser();

const median = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1]!;
const oxygen = (name: string) => median(truthOf(name).liftOffs.map((one) => one.oxygenPassed!));
const delay = (name: string) => median(truthOf(name).liftOffs.map((one) => one.delay!));
const [dead, good] = ["dead-catalyst-scope", "good-catalyst-scope"] as const;
const knownGood = "Sound hatchback";

let visit: Visit;
let page: Page;
beforeAll(async () => {
  visit = await browser.visit();
  page = visit.page;
});
afterAll(() => leave(visit));

const openShelf = () => page.getByRole("button", { name: "Compare", exact: true }).click();
const closeShelf = () => page.getByRole("button", { name: "Close" }).click();
const offers = () => page.getByRole("button", { name: `Compare with ${knownGood}` });

async function compareWith(name: string) {
  await openShelf();
  await page
    .getByRole("button", { name: `Compare with ${name}` })
    .first()
    .click();
  await page.getByText(`Against ${name}`).waitFor({ timeout: 60_000 });
  await page.getByRole("region", { name: "Differences" }).waitFor({ timeout: 60_000 });
}

/** The list of recordings tells beside a name when it was recorded, as the first test said of it. */
async function lookAt(fileName: string, stage: string) {
  await page.getByRole("tab", { name: "Job" }).click();
  await page.getByRole("button", { name: `${fileName} · ${stage}`, exact: true }).click();
  await page.getByRole("tab", { name: "Answer" }).click();
  await liftOffs(page, 3);
}

test("a sound catalyst after a dead one shows the gain; proved needs more, and what is missing is named", async () => {
  await openFile(page, thinned(dead));
  await openFile(page, thinned(good));
  await liftOffs(page, 3);
  await page.getByRole("button", { name: "Job papers" }).first().click();
  const papers = page.getByRole("dialog");
  await papers.getByRole("button", { name: "Repair and proof" }).click();
  const stage = (file: string) => papers.getByRole("group", { name: file }).getByLabel("Recorded");
  await stage(`${dead}.csv`).selectOption("before the repair");
  await stage(`${good}.csv`).selectOption("after the repair");
  await papers.getByRole("button", { name: "Compare before and after" }).click();
  await papers.getByText("The same test under like conditions.").waitFor({ timeout: 60_000 });
  await papers.getByRole("button", { name: "Close" }).first().click();
  await page.getByRole("tab", { name: "Compare" }).click();
  const region = await page.getByRole("region", { name: "Before and after" }).textContent();
  expect(region).toMatch(/Before: dead-catalyst-scope[\s\S]*After: good-catalyst-scope/);
  // Soft, as the tests behind it take up from here: a verdict gone wrong fails this one alone.
  expect.soft(region).toMatch(/points to the catalyst[\s\S]*points away/);
  expect(region).toMatch(/The gain is shown/);
  expect(region).toMatch(
    /not proved yet. Missing: repair stated, the car's own catalyst test finished, nothing pending/,
  );
  await page.getByRole("tab", { name: "Job" }).click();
  await page.getByRole("button", { name: /Customer sheet/ }).click();
  const dialog = page.getByRole("dialog", { name: "Customer sheet" });
  const line = (wanted: string) => dialog.getByRole("paragraph").filter({ hasText: wanted }).first().textContent();
  expect(await line("The repair is")).toMatch(/^The repair is not proved yet/);
  const ratio = claimOf((await line("Time until the rear sensor saw the air"))!.split("After over before:")[1]!);
  const truth = delay(good) / delay(dead);
  expect(ratio.low).toBeLessThanOrEqual(truth);
  expect(ratio.high).toBeGreaterThanOrEqual(truth);
  await dialog.getByRole("button", { name: "Close" }).first().click();
});

test("a known-good trace is kept, goes out as a file and comes in again; another file is refused and nothing is lost", async () => {
  await openShelf();
  await page.getByRole("button", { name: /Keep this recording/ }).click();
  await page.getByLabel("Name", { exact: true }).fill(knownGood);
  await page.getByLabel("Who says it is good").fill("the simulator");
  await page.getByLabel("Why").fill("made so");
  await page.getByLabel("Engine size").fill("Own one l");
  await page.getByText("No size can be read here.").waitFor();
  expect(await page.getByRole("button", { name: "Keep as known-good" }).isDisabled()).toBe(true);
  await page.getByLabel("Engine size").fill("1598 cm³");
  await page.getByRole("button", { name: "Keep as known-good" }).click();
  await offers().waitFor({ timeout: 60_000 });
  await page
    .getByText(/· 1\.60\sl ·|^1\.60\sl ·/)
    .first()
    .waitFor();
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: `Export ${knownGood}` }).click();
  const bytes = readFileSync(await (await download).path());
  const input = page.getByLabel("Shelf trace file");
  const zip = (buffer: Buffer) => ({ name: "trace.zip", mimeType: "application/zip", buffer });
  await input.setInputFiles(zip(bytes.subarray(0, 500)));
  await page.getByText("This is not a shelf trace, or it was cut off.").waitFor();
  await input.setInputFiles(zip(bytes));
  await offers().nth(1).waitFor({ timeout: 60_000 });
  expect(await offers().count()).toBe(2);
  await page.getByLabel("Search the shelf").fill("estate");
  await page.getByRole("button", { name: /Compare with Estate/ }).waitFor();
  expect(await offers().count()).toBe(0);
  await closeShelf();
});

test("a suspect over it reads delay and oxygen with bounds that hold the truth, and tells them apart", async () => {
  await lookAt(`${dead}.csv`, "before the repair");
  await compareWith(knownGood);
  await page.getByText("Compared like with like").waitFor();
  const rows = await page.getByRole("region", { name: "Differences" }).getByRole("listitem").allTextContents();
  const ratioIn = (row: string) => claimOf(row.split("ratio")[1]!);
  for (const [row, truth, word] of [
    [rows[0]!, delay(dead) / delay(good), "clearly shorter"],
    [rows[1]!, oxygen(dead) / oxygen(good), "clearly lower"],
  ] as const) {
    expect(row).toContain(word);
    expect(ratioIn(row).low).toBeLessThanOrEqual(truth);
    expect(ratioIn(row).high).toBeGreaterThanOrEqual(truth);
  }
});

test("it is slid along by a drag on the lanes, one step of undo, and blinked to", async () => {
  const shift = page.getByText(/^Reference shifted by/);
  await shift.waitFor();
  const before = await shift.textContent();
  await page.getByRole("button", { name: "Slide", exact: true }).click();
  const box = (await page.getByRole("application").boundingBox())!;
  await page.mouse.move(box.x + 0.4 * box.width, box.y + 80);
  await page.mouse.down();
  await page.mouse.move(box.x + 0.5 * box.width, box.y + 80, { steps: 5 });
  await page.mouse.up();
  const slid = page.getByText(/^Drag the reference along: shifted by/);
  await expect.poll(async () => (await shift.textContent()) !== before).toBe(true);
  expect((await slid.textContent())!.split("shifted by")[1]).toBe((await shift.textContent())!.split("shifted by")[1]);
  await page.getByRole("button", { name: "Undo" }).click();
  await expect.poll(() => shift.textContent()).toBe(before);
  await page.getByRole("button", { name: "Slide", exact: true }).click();
  await page.getByRole("button", { name: "Blink", exact: true }).click();
  await page.getByRole("button", { name: /^(Suspect|Reference: )/ }).click();
  await page.getByRole("button", { name: "Blink", exact: true }).click();
  expect(await page.getByRole("button", { name: /^(Suspect|Reference: )/ }).count()).toBe(0);
});

test("it is lined up on other lift-offs and nudged, and the shift is shown", async () => {
  const on = page.getByRole("region", { name: "Lining up" }).getByRole("combobox");
  await page.getByText(/Reference shifted by/).waitFor();
  await page.getByRole("button", { name: "Later by 0.1 s" }).click();
  await page.getByText(/Reference shifted by (99|100|0\.1)/).waitFor();
  await on.selectOption({ label: "Lift-off 2 on lift-off 3" });
  await page.getByText(/Reference shifted by −1[78]/).waitFor();
  await on.selectOption({ label: "Lift-off 1 on lift-off 1" });
});

test("the usual band takes in the lift-offs of another known-good trace", async () => {
  await page.getByRole("button", { name: "Usual band" }).click();
  const status = page.getByRole("status", { name: "Usual band" });
  await status.getByText("3 lift-offs of the reference").waitFor();
  await page.getByRole("button", { name: /Add known-good traces/ }).click();
  await page
    .getByRole("button", { name: `${knownGood} in the usual band` })
    .first()
    .click();
  await closeShelf();
  await status.getByText("6 lift-offs of 2 traces").waitFor({ timeout: 60_000 });
});

test("reference and band stand on the exhibit, named, with dashes and hatching told", async () => {
  const png = await makeExhibit(page);
  await page.keyboard.press("Escape");
  const [words] = await readWords([png.toString("base64")], "sheet");
  const text = words!.replace(/\s+/g, " ");
  expect(text).toMatch(/Clearly less oxygen/);
  expect(text).toContain(knownGood);
  expect(text).toMatch(/Dashed/);
  expect(text).toMatch(/Hatched: what is usual/);
});

test("all of it lies there again after a reload, as it was laid, with the recording that was looked at", async () => {
  const tab = page.getByRole("tab", { name: "Compare" });
  const shift = page.getByText(/^Reference shifted by/);
  await tab.click();
  await page.getByRole("button", { name: "Later by 0.1 s" }).click();
  await page.getByRole("button", { name: "In a lane below" }).click();
  await page.getByRole("button", { name: "Difference lane" }).click();
  const before = await shift.textContent();
  const remembered = () => page.evaluate(() => localStorage.getItem("tracewright-views"));
  const [last, first] = [await remembered(), await viewOf(page)];
  await page.getByRole("combobox", { name: "Go to" }).fill("lift-off 2");
  await page.keyboard.press("Enter");
  await expect.poll(() => viewOf(page)).not.toBe(first);
  const view = await viewOf(page);
  await expect.poll(remembered).not.toBe(last);
  await isSaved(page);
  await page.reload();
  await tab.click();
  await page.getByText(`Against ${knownGood}`).waitFor({ timeout: 60_000 });
  await page.getByText("Compared like with like").waitFor({ timeout: 60_000 });
  const region = await page.getByRole("region", { name: "Compare", exact: true }).textContent();
  expect(region).toContain(knownGood);
  expect(region).toMatch(/Clearly less oxygen passed/);
  await page.getByText("6 lift-offs of 2 traces").waitFor({ timeout: 60_000 });
  await page.getByRole("heading", { name: /^Suspect less reference/ }).waitFor();
  expect(await shift.textContent()).toBe(before);
  expect(await viewOf(page)).toBe(view);
  expect(await page.getByRole("button", { name: "In a lane below" }).getAttribute("aria-pressed")).toBe("true");
});

test("undo takes the comparison's steps back, one by one", async () => {
  const shift = page.getByText(/^Reference shifted by/);
  const [undo, redo] = ["Undo", "Redo"].map((name) => page.getByRole("button", { name }));
  const before = await shift.textContent();
  await page.getByRole("button", { name: "Earlier by 0.1 s" }).click();
  await expect.poll(() => shift.textContent()).not.toBe(before);
  await undo!.click();
  await expect.poll(() => shift.textContent()).toBe(before);
  await page.getByRole("button", { name: "Take away" }).click();
  await page.getByText("Nothing lies under this recording yet.").waitFor();
  await undo!.click();
  await page.getByText(`Against ${knownGood}`).waitFor({ timeout: 60_000 });
  await expect.poll(() => shift.textContent()).toBe(before);
  await redo!.click();
  await page.getByText("Nothing lies under this recording yet.").waitFor();
});

test("an unlike known-good is said to be unfair before any ratio", async () => {
  await compareWith("City car 1.0, sound (simulated)");
  await page.getByText("Not a fair comparison").first().waitFor();
  const panel = await page.getByRole("tabpanel").textContent();
  expect(panel!.indexOf("Not a fair comparison")).toBeGreaterThanOrEqual(0);
  expect(panel!.indexOf("Not a fair comparison")).toBeLessThan(panel!.indexOf("ratio"));
  expect(panel).not.toMatch(/clearly/i);
});

test("stretches that do match are offered, lined up, and compared", async () => {
  const offer = page.getByRole("button", { name: /^Compare only cruise stretches .*: \d+ here, \d+ there/ });
  await offer.waitFor();
  expect(await beyondTheWindow(page)).toEqual([]);
  await offer.click();
  await page.getByText("Fair only in part").waitFor();
  await page.getByText("Only matching cruise stretches are compared.").waitFor();
  const region = await page.getByRole("region", { name: "Compare", exact: true }).textContent();
  expect(region).toMatch(/air flow in the fuel cut differs\. Where both ran alike: .*, cruise: clearly higher/);
  const [first] = await page.getByRole("region", { name: "Differences" }).getByRole("listitem").allTextContents();
  expect(first).toMatch(/cruise: clearly higher/);
  const on = page.getByRole("region", { name: "Lining up" }).getByRole("combobox");
  expect(await on.locator("option:checked").textContent()).toBe("Start of cruise on start of cruise");
  await page.getByRole("button", { name: "Compare all cruise stretches" }).click();
  await page.getByText("Not a fair comparison").first().waitFor();
});
