// A stretch that was read wrong is put right by hand on the built page: findings follow, and it can be taken back.

import type { Page } from "playwright";
import { expect, test } from "vitest";
import { leave, useBrowser } from "./page.ts";
import { isSaved, liftOffs, openFile, samplePath } from "./steps.ts";

const browser = useBrowser();
/** The whole recording is read again after each correction. */
const soon = { timeout: 30_000 };

const band = (page: Page, name: RegExp) => page.getByRole("region", { name: "Overview" }).getByRole("button", { name });
const note = (page: Page) => page.getByRole("region", { name: "Stretch", exact: true });
const recordingFinding = (page: Page) =>
  page.getByRole("region", { name: "What else it could be" }).getByRole("group").filter({ hasText: "Recording" });

async function say(page: Page, kind: RegExp) {
  await note(page).getByRole("button", { name: "What it really was" }).click();
  await note(page).getByRole("button", { name: kind }).click();
}

test("a corrected stretch changes a finding, names its correction, survives a reload and can be taken back", async () => {
  const visit = await browser.visit();
  const { page } = visit;
  await openFile(page, samplePath("known-good-city-car-scope.csv.gz"));
  await liftOffs(page, 3);
  await expect.poll(() => recordingFinding(page).textContent(), soon).toMatch(/fit to judge/);
  await recordingFinding(page).locator("summary").click();
  expect(await recordingFinding(page).textContent()).not.toContain("corrected");

  // To the stretch: the view shows little else, and the note says what was read there.
  const idle = band(page, /^idle/);
  const [from, to] = (await idle.getAttribute("aria-label"))!.match(/\d+(\.\d+)?/g)!.map(Number) as [number, number];
  await idle.click();
  expect(await note(page).textContent()).toContain("idle");
  const view = page.getByRole("slider", { name: "View", exact: true });
  const [left, right] = (await view.getAttribute("aria-valuetext"))!.match(/\d+(\.\d+)?/g)!.map(Number) as [
    number,
    number,
  ];
  expect(left).toBeLessThanOrEqual(from);
  expect(right).toBeGreaterThanOrEqual(to);
  expect(right - left).toBeLessThan(1.3 * (to - from));

  // Idle was a cruise: the recording's finding counts it, and says whose word that is.
  await say(page, /^cruise/);
  await band(page, /^cruise, .* corrected by hand$/).waitFor();
  await expect
    .poll(() => recordingFinding(page).textContent(), soon)
    .toMatch(/steady cruise \(\d[^;]*\ss, corrected by hand; /);
  expect(await note(page).textContent()).toMatch(/cruise.*corrected by hand \(read as idle\)/);
  await page.getByRole("button", { name: "Undo" }).click();
  await expect.poll(() => recordingFinding(page).textContent(), soon).not.toContain("corrected by hand");
  await page.getByRole("button", { name: "Redo" }).click();
  await expect.poll(() => recordingFinding(page).textContent(), soon).toContain("corrected by hand");
  await say(page, /^Back to what was read: idle/);
  await expect.poll(() => recordingFinding(page).textContent(), soon).not.toContain("corrected by hand");

  // With both cruises set aside, by keyboard alone, the recording cannot clear the catalyst any more.
  for (const _ of [1, 2]) {
    await band(page, /^cruise/)
      .first()
      .press("Enter");
    await note(page).getByRole("button", { name: "What it really was" }).press("ArrowDown");
    for (let k = 0; k < 4; k++) await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    await expect.poll(() => note(page).textContent(), soon).toMatch(/hard pull.*corrected by hand \(read as cruise\)/);
  }
  await expect.poll(() => recordingFinding(page).textContent(), soon).toMatch(/cannot say/);
  await isSaved(page);

  await page.reload();
  await liftOffs(page, 3);
  expect(await band(page, /^hard pull, .* corrected by hand$/).count()).toBe(2);
  await expect.poll(() => recordingFinding(page).textContent(), soon).toMatch(/cannot say/);
  for (const _ of [1, 2]) {
    await band(page, /corrected by hand$/)
      .first()
      .click();
    await say(page, /^Back to what was read: cruise/);
    await expect.poll(() => note(page).textContent(), soon).not.toContain("corrected by hand");
  }
  await expect.poll(() => recordingFinding(page).textContent(), soon).toMatch(/fit to judge/);
  await page.getByRole("button", { name: "Let go of the stretch" }).click();
  expect(await note(page).count()).toBe(0);
  await leave(visit);
});
