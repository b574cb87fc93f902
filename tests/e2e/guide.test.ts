// The recording guide on the built page: it names the recording that is missing, and ticks what the job's captures hold.

import type { Page } from "playwright";
import { describe, expect, test } from "vitest";
import { leave, useBrowser } from "./page.ts";
import { liftOffs, openFile, samplePath, thinned } from "./steps.ts";

const browser = useBrowser();
const soon = { timeout: 30_000 };

describe("the recording guide", () => {
  const steps = async (page: Page) => {
    await page.getByRole("button", { name: "Recording guide" }).click();
    const dialog = page.getByRole("dialog");
    await dialog.waitFor();
    const step = (title: string) =>
      dialog.getByRole("listitem").filter({ has: page.getByRole("heading", { name: title }) });
    const close = () => page.keyboard.press("Escape");
    return { dialog, step, close };
  };

  test("names the missing recording, and ticks what the job's captures hold together", async () => {
    const visit = await browser.visit();
    const { page } = visit;
    await openFile(page, samplePath("good-catalyst-polled.csv"));
    await liftOffs(page, 3);
    const before = await steps(page);
    await before.dialog.getByText(/^Record next: idle, one minute\./).waitFor(soon);
    for (const title of ["Warm engine", "Fuel trims"])
      expect(await before.step(title).textContent()).toContain("recorded");
    for (const title of ["Idle, one minute", "Steady cruise"]) {
      expect(await before.step(title).textContent()).toMatch(/cannot be judged. Sampled too slowly/);
    }
    expect(await before.step("Three lift-offs").textContent()).toMatch(/too slowly/);
    await before.close();

    // The scope's recording brings what the log could not: now nothing is missing.
    await openFile(page, thinned("good-catalyst-scope"));
    await liftOffs(page, 3);
    await page
      .getByRole("region", { name: "Answer" })
      .getByText("Points away from the catalyst", { exact: true })
      .waitFor(soon);
    const after = await steps(page);
    await after.dialog.getByText("This job holds every recording the guide asks for.").waitFor(soon);
    expect(await after.dialog.locator("li.done").count()).toBe(5);
    await after.close();
    await leave(visit);
  });
});
