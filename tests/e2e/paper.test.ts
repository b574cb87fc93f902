// The whole job on paper, in one go: from the complaint to the printed sheet, its pages counted and its text read back.

import { readFileSync } from "node:fs";
import { unzipSync } from "fflate";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readWords } from "../ocr.ts";
import { beyondTheWindow, leave, sizes, useBrowser, type Visit } from "./page.ts";
import { isSaved, liftOffs, makeExhibit, openFile, samplePath } from "./steps.ts";

const browser = useBrowser();
let visit: Visit;
beforeAll(async () => {
  visit = await browser.visit();
});
afterAll(() => leave(visit));

/** Pages of a PDF: its page objects (ISO 32000-1, 7.7.3.3). */
const pagesIn = (pdf: Buffer): number => [...pdf.toString("latin1").matchAll(/\/Type\s*\/Page\b(?!s)/g)].length;
const print = async (): Promise<number> => pagesIn(await visit.page.pdf({ preferCSSPageSize: true }));
const mediaBoxes = async () => {
  const pdf = (await visit.page.pdf({ preferCSSPageSize: true })).toString("latin1");
  return [...pdf.matchAll(/\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/g)].map(([, width, height]) => [
    Number(width),
    Number(height),
  ]);
};
const dialog = () => visit.page.getByRole("dialog");
const turn = (name: RegExp) => dialog().getByRole("navigation").getByRole("button", { name }).click();
const shut = () => dialog().getByRole("button", { name: "Close" }).first().click();

test("the job begins with the complaint, and what clearing destroys is saved first", async () => {
  const { page } = visit;
  await page.getByRole("button", { name: /Begin with the complaint/ }).click();
  await dialog().getByLabel("Complaint, in the customer's own words").fill("The lamp came on in the hills.");
  await dialog().getByLabel("Technician").fill("T. Example");
  await turn(/^Codes/);
  await dialog()
    .getByLabel(/Type or paste codes/)
    .fill("7E8 06 43 02 04 20 01 71\n7E8 02 47 00");
  await dialog().getByRole("button", { name: "Take over" }).click();
  await dialog().getByRole("region", { name: "Cure first" }).getByText("Mixture, air meter, temperature").waitFor();
  await turn(/Before clearing/);
  expect(await dialog().getByRole("alert").textContent()).toContain("Do not clear codes yet");
  await turn(/Freeze frame/);
  await dialog()
    .getByLabel(/Type or paste it with units/)
    .fill("Engine speed 2,500 rpm\nCoolant 190.4 °F");
  await dialog().getByRole("button", { name: "Take over" }).click();
  expect(await dialog().getByRole("table").textContent()).toContain("88\u00a0°C");
  // A worked record of service $06: 1.125, limits 0 to 1.000. On a phone nothing of it lies behind the edge.
  await turn(/Monitor results/);
  await dialog().locator("textarea").fill("46 21 80 20 01 20 00 00 01 00");
  await page.setViewportSize(sizes.phone);
  await dialog().getByText("failed", { exact: true }).waitFor();
  expect(await beyondTheWindow(page)).toEqual([]);
  await page.setViewportSize(sizes.wide);
  await turn(/Other causes/);
  await dialog().getByLabel("Leak between the sensors: result").selectOption("in order");
  await dialog().getByLabel("Leak between the sensors: value").fill("smoke test");
  await shut();
});

test("it stands without a recording, also after a reload; then the recording is looked through for the freeze frame", async () => {
  const { page } = visit;
  await page.getByText("has no recording yet").waitFor();
  await isSaved(page);
  await page.reload();
  await page.getByText("has no recording yet").waitFor();
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save job bundle" }).click();
  expect(Object.keys(unzipSync(readFileSync(await (await download).path())))).toContain("job.json");
  await openFile(page, samplePath("dead-catalyst-polled.csv"));
  await liftOffs(page, 3);
  await page.getByRole("button", { name: "Job papers" }).first().click();
  await turn(/Freeze frame/);
  await dialog()
    .getByText(/This recording has been where the code was stored/)
    .waitFor();
  await shut();
  await makeExhibit(page);
  await page.keyboard.press("Escape");
});

test("the customer's sheet is given away, prints on one page of either paper, and reads back from its pixels", async () => {
  const { page } = visit;
  await page.getByRole("tab", { name: "Job" }).click();
  await page.getByRole("button", { name: "Customer sheet" }).click();
  // On a phone it can be read without pushing it sideways, and is a sheet of paper all the same.
  await page.setViewportSize(sizes.phone);
  await dialog().getByText("What we found on your car").waitFor();
  expect(await beyondTheWindow(page)).toEqual([]);
  expect(await print()).toBe(1);
  await page.setViewportSize(sizes.wide);
  await dialog().getByRole("button", { name: "+ Converter approved for this car" }).click();
  await dialog().getByLabel("Price of choice 1").fill("540 and tax");
  await dialog().getByRole("button", { name: "Give it away as revision 1" }).click();
  const sheet = page.locator(".print-only .customer-page");
  await sheet.locator("img").waitFor({ state: "attached" });
  expect(await print()).toBe(1);
  await dialog().getByLabel("Shown").selectOption("the draft");
  await dialog().getByLabel("Paper").selectOption("Letter");
  expect(await print()).toBe(1);
  await dialog().getByLabel("Print the exhibits too, one a page").check();
  await page.locator(".printed-exhibit img").waitFor({ state: "attached" });
  expect(await print()).toBe(2);
  // The exhibit lies on a landscape sheet of its own, at its true size: 11 in wide (ISO 32000-1, 7.7.3.3, MediaBox).
  const boxes = await mediaBoxes();
  expect(boxes.map(([width, height]) => width! > height!)).toEqual([false, true]);

  await page.emulateMedia({ media: "print" });
  const size = await sheet.evaluate((element) => Number.parseFloat(getComputedStyle(element).fontSize) * 0.75);
  expect(size).toBeGreaterThanOrEqual(8 - 0.01);
  await page.setViewportSize({ width: 1800, height: 2400 });
  await page.evaluate(() => document.body.style.setProperty("zoom", "2"));
  const png = (await sheet.screenshot()).toString("base64");
  const words = (await readWords([png], "sheet")).join(" ").replace(/\s+/g, " ");
  for (const wanted of [/What we found on your car/, /540 and tax/, /smoke test/, /emission test/]) {
    expect(words).toMatch(wanted);
  }
});

test("without its last recording the job stays, with all its papers", async () => {
  const { page } = visit;
  await page.emulateMedia({ media: "screen" });
  await page.evaluate(() => document.body.style.setProperty("zoom", "1"));
  await page.setViewportSize({ width: 1280, height: 800 });
  await shut();
  const takeOut = page.getByRole("button", { name: "Take it out of the job" });
  await takeOut.click();
  await page.getByRole("button", { name: "Keep it" }).click();
  await takeOut.click();
  await page.getByRole("button", { name: /^Take it out, with all/ }).click();
  await page.getByText("has no recording yet").waitFor();
  await page.getByRole("button", { name: "Job papers" }).first().click();
  await turn(/^Complaint/);
  expect(await dialog().getByLabel("Complaint, in the customer's own words").inputValue()).toContain("in the hills");
});
