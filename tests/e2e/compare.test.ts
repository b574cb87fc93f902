// Suspect against known-good on the built page: keep, open, lay under, read, exhibit. The truth is the simulator's.

import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import { readWords } from "../ocr.ts";
import { leave, useBrowser, type Visit } from "./page.ts";
import { claimOf, liftOffs, openFile, samplePath, truthOf } from "./steps.ts";

const browser = useBrowser();

const median = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1]!;
const oxygen = (name: string) => median(truthOf(name).liftOffs.map((one) => one.oxygenPassed!));
const delay = (name: string) => median(truthOf(name).liftOffs.map((one) => one.delay!));
const knownGood = "Sound hatchback";

async function keepAsKnownGood({ page }: Visit) {
  await openFile(page, samplePath("good-catalyst-scope.csv.gz"));
  await liftOffs(page, 3);
  await page.getByRole("button", { name: "Compare", exact: true }).click();
  await page.getByRole("button", { name: /Keep this recording/ }).click();
  await page.getByLabel("Name", { exact: true }).fill(knownGood);
  await page.getByLabel("Who says it is good").fill("the simulator");
  await page.getByLabel("Why").fill("made so");
  await page.getByRole("button", { name: "Keep as known-good" }).click();
  await page.getByRole("button", { name: `Compare with ${knownGood}` }).waitFor({ timeout: 60_000 });
  await page.getByRole("button", { name: "Close" }).click();
}

async function compareWith({ page }: Visit, name: string) {
  await page.getByRole("button", { name: "Compare", exact: true }).click();
  await page.getByRole("button", { name: `Compare with ${name}` }).click();
  await page.getByRole("region", { name: "Differences" }).waitFor({ timeout: 60_000 });
}

describe("a suspect over a known-good trace", () => {
  let png: Buffer;
  let rows: string[];
  let reloaded: string | null;

  beforeAll(async () => {
    const visit = await browser.visit();
    const { page } = visit;
    await keepAsKnownGood(visit);
    await openFile(page, samplePath("dead-catalyst-scope.csv.gz"));
    await liftOffs(page, 3);
    await compareWith(visit, knownGood);
    await page.getByText("Compared like with like").waitFor();
    rows = await page.getByRole("region", { name: "Differences" }).getByRole("listitem").allTextContents();
    await page.getByText(/Reference shifted by/).waitFor();
    await page.getByRole("button", { name: "Later by 0.1 s" }).click();
    await page.getByText(/Reference shifted by (99|100|0\.1)/).waitFor();
    await page
      .getByRole("region", { name: "Lining up" })
      .getByRole("combobox")
      .selectOption({ label: "Lift-off 2 on lift-off 3" });
    await page.getByText(/Reference shifted by −1[78]/).waitFor();
    await page
      .getByRole("region", { name: "Lining up" })
      .getByRole("combobox")
      .selectOption({ label: "Lift-off 1 on lift-off 1" });
    await page.getByRole("button", { name: "Make exhibit" }).first().click();
    const dialog = page.getByRole("dialog");
    await dialog.getByRole("img", { name: /Preview/ }).waitFor();
    await dialog.getByRole("button", { name: "Make exhibit" }).click();
    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: /PNG/ }).first().click();
    png = readFileSync(await (await download).path());
    await page.keyboard.press("Escape");
    await page.getByText("saved", { exact: false }).first().waitFor();
    await page.waitForTimeout(1500);
    await page.reload();
    await page.getByRole("tab", { name: "Compare" }).click();
    await page.getByText("Compared like with like").waitFor({ timeout: 60_000 });
    reloaded = await page.getByRole("region", { name: "Compare", exact: true }).textContent();
    await leave(visit);
  });

  test("reads delay and oxygen with bounds that hold the truth, and tells them apart", () => {
    const ratioIn = (row: string) => claimOf(row.split("ratio")[1]!);
    for (const [row, truth, word] of [
      [rows[0]!, delay("dead-catalyst-scope") / delay("good-catalyst-scope"), "clearly shorter"],
      [rows[1]!, oxygen("dead-catalyst-scope") / oxygen("good-catalyst-scope"), "clearly lower"],
    ] as const) {
      expect(row).toContain(word);
      expect(ratioIn(row).low).toBeLessThanOrEqual(truth);
      expect(ratioIn(row).high).toBeGreaterThanOrEqual(truth);
    }
  });

  test("stands on the exhibit with the reference named and its dashes told", async () => {
    const [words] = await readWords([png.toString("base64")], "sheet");
    const text = words!.replace(/\s+/g, " ");
    expect(text).toMatch(/Clearly less oxygen/);
    expect(text).toContain(knownGood);
    expect(text).toMatch(/Dashed/);
  });

  test("lies there again after a reload", () => {
    expect(reloaded).toContain(knownGood);
    expect(reloaded).toMatch(/Clearly less oxygen passed/);
  });
});

describe("fairness and before against after", () => {
  test("an unlike known-good is said to be unfair before any ratio", async () => {
    const visit = await browser.visit();
    await openFile(visit.page, samplePath("dead-catalyst-scope.csv.gz"));
    await liftOffs(visit.page, 3);
    await compareWith(visit, "City car 1.0, sound (simulated)");
    const panel = await visit.page.getByRole("tabpanel").textContent();
    expect(panel!.indexOf("Not a fair comparison")).toBeGreaterThanOrEqual(0);
    expect(panel!.indexOf("Not a fair comparison")).toBeLessThan(panel!.indexOf("ratio"));
    expect(panel).not.toMatch(/clearly/i);
    await leave(visit);
  });

  test("a sound catalyst after a dead one proves the repair, both sentences side by side", async () => {
    const visit = await browser.visit();
    await openFile(visit.page, samplePath("dead-catalyst-scope.csv.gz"));
    await openFile(visit.page, samplePath("good-catalyst-scope.csv.gz"));
    await liftOffs(visit.page, 3);
    await compareWith(visit, "dead-catalyst-scope.csv.gz");
    const region = await visit.page.getByRole("region", { name: "Before and after" }).textContent();
    expect(region).toMatch(/Before: dead-catalyst-scope[\s\S]*After: good-catalyst-scope/);
    expect(region).toMatch(/points to the catalyst[\s\S]*points away/);
    expect(region).toMatch(/The repair is proved/);
    await leave(visit);
  });
});

describe("a shelf trace as a file", () => {
  test("goes out and comes in again; a file of another kind is refused and nothing is lost", async () => {
    const visit = await browser.visit();
    const { page } = visit;
    await keepAsKnownGood(visit);
    await page.getByRole("button", { name: "Compare", exact: true }).click();
    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: `Export ${knownGood}` }).click();
    const bytes = readFileSync(await (await download).path());
    const input = page.getByLabel("Shelf trace file");
    const zip = (buffer: Buffer) => ({ name: "trace.zip", mimeType: "application/zip", buffer });
    await input.setInputFiles(zip(bytes.subarray(0, 500)));
    await page.getByText("This is not a shelf trace, or it was cut off.").waitFor();
    await input.setInputFiles(zip(bytes));
    const offers = page.getByRole("button", { name: `Compare with ${knownGood}` });
    await offers.nth(1).waitFor({ timeout: 60_000 });
    expect(await offers.count()).toBe(2);
    await page.getByLabel("Search the shelf").fill("estate");
    await page.getByRole("button", { name: /Compare with Estate/ }).waitFor();
    expect(await offers.count()).toBe(0);
    await leave(visit);
  });
});
