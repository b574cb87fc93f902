// What was done is there again after a reload and after a crash of the tab; undo takes every step back.

import { expect, test } from "vitest";
import { leave, listen, useBrowser } from "./page.ts";
import { isSaved, liftOffs, openFile, samplePath } from "./steps.ts";

const browser = useBrowser();
const jobName = "Invented job 12";

test("job, capture, dimension and exhibit come back after a reload and after a crash", async () => {
  const visit = await browser.visit();
  const { page, context } = visit;
  await openFile(page, samplePath("good-catalyst-polled.csv"));
  await page.getByRole("textbox", { name: "Job name" }).fill(jobName);
  const [first] = await liftOffs(page, 3);
  await first!.click();
  await page.getByRole("button", { name: "Make exhibit" }).first().click();
  await page.getByRole("dialog").getByRole("button", { name: "Make exhibit" }).click();
  await page.getByRole("dialog").getByRole("button", { name: "Done" }).click();
  await isSaved(page);

  await page.reload();
  expect(await page.getByRole("textbox", { name: "Job name" }).inputValue()).toBe(jobName);
  expect((await liftOffs(page, 3)).length).toBe(3);

  const session = await context.newCDPSession(page);
  const crashed = new Promise((resolve) => page.once("crash", resolve));
  void session.send("Page.crash").catch(() => undefined); // A crashed page never answers.
  await crashed;
  const next = await context.newPage();
  const noise = listen(next, new URL(page.url()).origin);
  await next.goto(page.url());
  expect(await next.getByRole("textbox", { name: "Job name" }).inputValue()).toBe(jobName);
  expect((await liftOffs(next, 3)).length).toBe(3);
  await next.getByRole("tab", { name: "Job" }).click();
  await next
    .getByRole("img", { name: /^Sheet 1, revision 1/ })
    .first()
    .waitFor();
  expect(noise).toEqual([]);
  await leave(visit);
});

test("undo and redo go through cursors and lift-off edits", async () => {
  const visit = await browser.visit();
  const { page } = visit;
  await openFile(page, samplePath("good-catalyst-polled.csv"));
  await liftOffs(page, 3);
  await page.getByRole("button", { name: "Time pair", exact: true }).click();
  const box = (await page.getByRole("application").boundingBox())!;
  await page.mouse.move(box.x + box.width * 0.4, box.y + 90);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * 0.6, box.y + 90, { steps: 5 });
  await page.mouse.up();
  const pairs = page.getByRole("region", { name: "Dimensions" }).getByRole("group");
  await expect.poll(() => pairs.count()).toBeGreaterThan(0);
  const many = await pairs.count();
  await page.getByRole("button", { name: "Undo" }).click();
  await expect.poll(() => pairs.count()).toBeLessThan(many);
  await page.getByRole("button", { name: "Redo" }).click();
  await expect.poll(() => pairs.count()).toBe(many);
  await leave(visit);
});

test("when its workers die the page goes on: what is asked for is there, and it says so", async () => {
  const visit = await browser.visit();
  const { page } = visit;
  await openFile(page, samplePath("good-catalyst-polled.csv"));
  await liftOffs(page, 3);
  await isSaved(page);
  for (const worker of page.workers()) void worker.evaluate(() => self.close()).catch(() => undefined);
  const [, second] = await liftOffs(page, 3);
  await second!.click();
  await page
    .getByRole("status")
    .filter({ hasText: /started again/ })
    .waitFor({ state: "attached" });
  await page.getByRole("button", { name: "Make exhibit" }).first().click();
  await page
    .getByRole("dialog")
    .getByRole("img", { name: /Preview/ })
    .waitFor();
  await leave(visit);
});

test("storage emptied under the open page is told at once, and what is at hand is kept anew", async () => {
  const visit = await browser.visit();
  const { page, context } = visit;
  await openFile(page, samplePath("good-catalyst-polled.csv"));
  await liftOffs(page, 3);
  await isSaved(page);
  const session = await context.newCDPSession(page);
  const { origin } = new URL(page.url());
  await session.send("Storage.clearDataForOrigin", { origin, storageTypes: "all" });
  await page.getByRole("alert").filter({ hasText: "was emptied while the page was open" }).waitFor();
  await isSaved(page);
  await page.reload();
  expect((await liftOffs(page, 3)).length).toBe(3);
  await leave(visit);
});
