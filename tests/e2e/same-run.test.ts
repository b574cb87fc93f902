// A scope capture and a polled log of one run on one time axis, on the built page. The truth is the simulator's.

import { readFileSync } from "node:fs";
import type { Page } from "playwright";
import { expect, test } from "vitest";
import { readWords } from "../ocr.ts";
import { isLongForm } from "../share.ts";
import { leave, useBrowser } from "./page.ts";
import { claimOf, isSaved, liftOffs, makeExhibit, openFile, samplePath, thinned, truthOf } from "./steps.ts";

const browser = useBrowser();
const [scope, log] = ["good-catalyst-scope.csv", "good-catalyst-polled.csv"];
const liftOffAt = (name: string) => truthOf(name).liftOffs[0]!.at;
const truth = liftOffAt("good-catalyst-scope") - liftOffAt("good-catalyst-polled");

const lying = (page: Page) => page.getByRole("group", { name: /on this time axis$/ });
const shiftText = async (page: Page) => (await lying(page).locator(".shift").textContent())!;
const claimHolds = (text: string, value: number) => {
  const { low, high } = claimOf(text.split("shifted by")[1]!);
  expect(low).toBeLessThanOrEqual(value);
  expect(high).toBeGreaterThanOrEqual(value);
  expect(high - low).toBeLessThan(1.2);
};

/** Opens the log while the scope capture is on the bench, and takes the page's offer. */
async function layTogether(page: Page, other: Parameters<typeof openFile>[1] = samplePath(log)) {
  await openFile(page, thinned("good-catalyst-scope"));
  await liftOffs(page, 3);
  await openFile(page, other);
  await page.getByRole("button", { name: "Same run: add to its time axis" }).click();
  await page
    .getByRole("status")
    .filter({ hasText: "lies on this time axis" })
    .waitFor({ state: "attached", timeout: 60_000 });
  await page.getByRole("tab", { name: "Job" }).click();
}

test("is offered, lined up by itself and by a lift-off, shifted by hand, undone, kept, and told on the exhibit", async () => {
  const visit = await browser.visit();
  const { page } = visit;
  await layTogether(page);

  claimHolds(await shiftText(page), truth);
  await page.getByRole("region", { name: /^Oxygen sensors: good-catalyst-polled/ }).waitFor({ state: "attached" });
  const ways = lying(page).getByRole("combobox");
  await ways.getByText("Lift-off 2 on lift-off 2").waitFor({ state: "attached", timeout: 60_000 });
  await ways.selectOption({ label: "Lift-off 2 on lift-off 2" });
  await expect.poll(() => ways.inputValue()).toMatch(/^lift-off/);
  claimHolds(await shiftText(page), truth);

  // By hand: a button, a typed value, a key; each one step of undo.
  const typed = lying(page).getByLabel("Shift, s");
  await lying(page).getByRole("button", { name: "Later by 0.1 s" }).click();
  await typed.fill("7,25");
  await typed.press("Enter");
  await expect.poll(() => shiftText(page)).toMatch(/7\.25\d*\ss \(7\.24\d* … 7\.25\d*\)/);
  await page.getByRole("application").focus();
  await page.keyboard.press(".");
  await expect.poll(() => typed.inputValue()).not.toBe("7.250");
  await page.getByRole("button", { name: "Undo" }).click();
  await expect.poll(() => typed.inputValue()).toBe("7.250");
  await page.getByRole("button", { name: "Undo" }).click();
  await page.getByRole("button", { name: "Undo" }).click();
  await expect.poll(() => ways.inputValue()).toMatch(/^lift-off/);

  // A cursor reads both: two sensors of the scope and two of the log, and more lanes besides.
  await page.getByRole("button", { name: "Next lift-off" }).click();
  const box = (await page.getByRole("application").boundingBox())!;
  await page.mouse.move(box.x + box.width * 0.75, box.y + 200, { steps: 5 });
  const logLane = (await page
    .getByRole("region", { name: /^Oxygen sensors: good/ })
    .locator(".lane-sheet")
    .boundingBox())!;
  const inLane = async () => {
    const boxes = await Promise.all((await page.locator(".readout circle").all()).map((dot) => dot.boundingBox()));
    return boxes.filter((one) => one && one.y > logLane.y - 5 && one.y < logLane.y + logLane.height).length;
  };
  await expect.poll(inLane).toBe(2);

  // Over each other in one lane, as any channel: the scope's two and the log's front.
  await page.getByRole("tab", { name: "Channels" }).click();
  const theirs = page.getByRole("region", { name: `Same run: ${log}` });
  await theirs.getByRole("group").filter({ hasText: "Front O2 sensor" }).first().click();
  await theirs.getByLabel("Lane").first().selectOption({ label: "With Front O2 sensor, Rear O2 sensor" });
  await page.getByRole("region", { name: "Oxygen sensors", exact: true }).getByText("Front O2 sensor: good").waitFor();

  const png = await makeExhibit(page);
  const words = (await readWords([png.toString("base64")], "sheet"))[0]!.replace(/\s+/g, " ");
  expect(words).toMatch(/Same run: good-catalyst-polled/);
  expect(words).toMatch(/shifted by 0\.\d+.{0,40}Lift-off 2 on lift-off 2/);
  await page.keyboard.press("Escape");

  await isSaved(page);
  await page.reload();
  await page.getByRole("tab", { name: "Job" }).click();
  // The log was opened last, so it is on the bench; the scope is looked at again.
  await page.getByRole("button", { name: scope, exact: true }).click();
  await lying(page).waitFor({ timeout: 60_000 });
  claimHolds(await shiftText(page), truth);
  await page.getByRole("region", { name: "Oxygen sensors", exact: true }).getByText("Front O2 sensor: good").waitFor();

  await lying(page).getByRole("button", { name: "Take it off this time axis" }).click();
  await page.getByRole("button", { name: `Add ${log} to this time axis` }).waitFor();
  expect(await page.getByText("Front O2 sensor: good").count()).toBe(0);
  await page.getByRole("button", { name: "Undo" }).click();
  await lying(page).waitFor();
  await leave(visit);
});

test.runIf(isLongForm)("a log that began earlier or ended later is found, and the axis holds both", async () => {
  const visit = await browser.visit();
  const { page } = visit;
  // The first 100 s of the log cut away: its first row stands at 0, so the shift is that row's stamp and the truth.
  const [head, ...rows] = readFileSync(samplePath(log), "utf8").trimEnd().split("\n");
  const kept = rows.filter((row) => Number.parseFloat(row) >= 100);
  const late = Number.parseFloat(kept[0]!);
  const file = { name: "late.csv", mimeType: "text/csv", buffer: Buffer.from([head, ...kept].join("\n")) };
  await layTogether(page, file);
  claimHolds(await shiftText(page), late + truth);
  // Moved far beyond the scope's end, it still can be seen: the axis ends where the log does.
  const typed = lying(page).getByLabel("Shift, s");
  await typed.fill("300");
  await typed.press("Enter");
  await page.getByRole("button", { name: "See all" }).click();
  await expect.poll(() => page.getByRole("application").getAttribute("aria-label")).toMatch(/to 405/);
  await leave(visit);
});
