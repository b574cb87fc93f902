// From the first visit on the program needs no server: it starts, opens, measures, draws, exports and prints. A newer
// version is offered, and taken only by hand and only in the last tab.

import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright";
import { afterEach, beforeEach, expect, test } from "vitest";
import { root } from "../../src/command/setup.mjs";
import { leave, openPage, theBrowser } from "./page.ts";
import { type StaticServer, startStaticServer } from "./static-server.ts";
import { liftOffs, makeExhibit } from "./steps.ts";

let server: StaticServer;
const folder = mkdtempSync(join(tmpdir(), "newer-"));
beforeEach(async () => {
  server = await startStaticServer(join(root, "dist"));
});
afterEach(async () => {
  await server.stop();
  rmSync(folder, { recursive: true, force: true });
});

const kept = (page: Page) => page.getByText("it starts without a network").waitFor();
const sheet = (page: Page) => page.getByRole("dialog");

async function openSheet(page: Page, item: string) {
  await page.getByRole("button", { name: "More" }).click();
  await page.getByRole("button", { name: item, exact: true }).click();
  await sheet(page).waitFor();
  expect(await page.getByRole("alert", { name: "Problem" }).count()).toBe(0);
  await page.keyboard.press("Escape");
  await expect.poll(() => sheet(page).count()).toBe(0);
}

test("with the server gone after the first visit, every part of the program still comes", async () => {
  const visit = await openPage(await theBrowser(), server.address, { kept: true });
  const { page } = visit;
  await kept(page);
  await server.stop();
  await page.reload();
  await page.getByRole("button", { name: /sample job/i }).click();
  await liftOffs(page, 3);
  const png = await makeExhibit(page);
  expect(png.subarray(1, 4).toString("latin1")).toBe("PNG");
  await page.keyboard.press("Escape");
  for (const item of ["Jobs …", "Save data …", "Limits …", "Keyboard"]) await openSheet(page, item);
  for (const name of ["Recording guide", "Compare"]) {
    await page.getByRole("button", { name, exact: true }).click();
    await sheet(page).waitFor();
    await page.keyboard.press("Escape");
    await expect.poll(() => sheet(page).count()).toBe(0);
  }
  for (const tab of ["Compare", "Channels", "Job"]) await page.getByRole("tab", { name: tab }).click();
  await page.getByRole("button", { name: /Customer sheet/ }).click();
  await sheet(page).getByRole("button", { name: /Print/ }).waitFor();
  expect(await page.getByText(/could not be fetched/).count()).toBe(0);
  // The search for a newer version is all that fails without a server.
  visit.noise.splice(0, Infinity, ...visit.noise.filter((line) => !/sw\.js|script resource|ERR_CONNECTION/.test(line)));
  await leave(visit);
});

test("a newer version is offered, not forced, and waits until other tabs are closed", async () => {
  const visit = await openPage(await theBrowser(), server.address, { kept: true });
  const { page, context } = visit;
  await kept(page);
  cpSync(join(root, "dist"), folder, { recursive: true });
  const edit = (name: string, change: (text: string) => string) =>
    writeFileSync(join(folder, name), change(readFileSync(join(folder, name), "utf8")));
  edit("index.html", (text) => text.replace("<title>Tracewright</title>", "<title>Tracewright, newer</title>"));
  edit("sw.js", (text) => text.replace(/(url:"index\.html",revision:")[0-9a-f]+/, "$1ffff"));
  expect(readFileSync(join(folder, "sw.js"), "utf8")).toContain('revision:"ffff"');
  server.serve(folder);

  await page.reload();
  const offer = page.getByRole("region", { name: "Newer version" });
  await offer.waitFor();
  expect(await page.title()).toBe("Tracewright");
  const other = await context.newPage();
  await other.goto(server.address);
  expect(await other.title()).toBe("Tracewright");
  await offer.getByRole("button", { name: "Save and change to it" }).click();
  await offer.getByText(/open in other tabs too/).waitFor();
  expect(await page.title()).toBe("Tracewright");
  await other.close();
  // The browser may count a tab for a moment after it was closed; then the offer still says so, and is taken once more.
  const take = () => offer.getByRole("button", { name: "Save and change to it" }).click({ timeout: 2000 });
  await expect
    .poll(async () => {
      await take().catch(() => {});
      return page.title();
    })
    .toBe("Tracewright, newer");
  expect(await offer.count()).toBe(0);
  await leave(visit);
});
