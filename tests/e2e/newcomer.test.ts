// From the empty page to a downloaded exhibit with a file of one's own, by finger: in five touches at most.

import { expect, test } from "vitest";
import { leave, useBrowser } from "./page.ts";
import { liftOffs, thinned } from "./steps.ts";

const browser = useBrowser();

test.each(["tablet", "phone"] as const)("a newcomer on a %s", async (size) => {
  const visit = await browser.visit({ size, touch: true, rehearsed: true });
  const { page } = visit;
  await page.evaluate(() => {
    const count = { touches: 0 };
    Object.assign(globalThis, { count });
    document.addEventListener("click", ({ isTrusted }) => isTrusted && count.touches++, true);
  });
  const chooser = page.waitForEvent("filechooser");
  await page.getByRole("button", { name: /^Open/ }).first().tap();
  await (await chooser).setFiles(thinned("dead-catalyst-scope"));
  await liftOffs(page, 3);
  await page.getByRole("button", { name: "Make exhibit" }).first().tap();
  const dialog = page.getByRole("dialog");
  await dialog.getByRole("img", { name: /Preview/ }).waitFor();
  await dialog.getByRole("button", { name: "Make exhibit" }).tap();
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: /PNG/ }).first().tap();
  expect((await download).suggestedFilename()).toMatch(/\.png$/);
  const touches = await page.evaluate(() => (globalThis as unknown as { count: { touches: number } }).count.touches);
  expect(touches).toBeGreaterThanOrEqual(4);
  expect(touches).toBeLessThanOrEqual(5);

  // Where the panel stands below the lanes, the verdict stands above them and leads to the answer.
  await page.keyboard.press("Escape");
  const ahead = page.getByRole("button", { name: /^Points to the catalyst/ });
  expect(await ahead.count()).toBe(size === "phone" ? 1 : 0);
  if (size === "phone") {
    await ahead.tap();
    await expect.poll(async () => (await page.getByRole("tablist").boundingBox())!.y).toBeLessThan(10);
  }
  await leave(visit);
});
