// The main job on the built page: from a file dropped to an exhibit read back from its pixels. The truth is the
// simulator's: true crossing times of noise-free sensor voltages.

import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import { readWords } from "../ocr.ts";
import { leave, useBrowser } from "./page.ts";
import { claimOf, dropFiles, liftOffs, openFile, samplePath, truthOf } from "./steps.ts";

const browser = useBrowser();

describe("the delay shown on the page", () => {
  test.each([
    ["good-catalyst-scope", ".csv.gz"],
    ["dead-catalyst-scope", ".csv.gz"],
    ["good-catalyst-polled", ".csv"],
    ["dead-catalyst-polled", ".csv"],
  ])("holds the simulator's truth, %s", async (name, ending) => {
    const visit = await browser.visit();
    await openFile(visit.page, samplePath(name + ending));
    const truth = truthOf(name).liftOffs;
    const shown = await liftOffs(visit.page, truth.length);
    expect(shown.length).toBe(truth.length);
    for (const [i, button] of shown.entries()) {
      const label = (await button.getAttribute("aria-label"))!;
      const claim = claimOf(label.split("delay ")[1]!);
      expect(claim.low, label).toBeLessThanOrEqual(truth[i]!.delay!);
      expect(claim.high, label).toBeGreaterThanOrEqual(truth[i]!.delay!);
    }
    await leave(visit);
  });

  test("is not claimed at a polled rate where the sampling cannot support it", async () => {
    const visit = await browser.visit();
    await openFile(visit.page, samplePath("dead-catalyst-polled.csv"));
    const [first] = await liftOffs(visit.page, 3);
    // Truth is about 0.06 s, a row takes about 0.3 s: nothing but an upper bound can be known.
    expect(await first!.getAttribute("aria-label")).toMatch(/delay at most/);
    const readings = visit.page.getByRole("region", { name: "Readings" });
    for (const name of ["Front, Rich to lean", "Front, Lean to rich", "Front, Switching"]) {
      await readings.getByRole("button", { name: `${name}: not measurable` }).waitFor();
    }
    await leave(visit);
  });
});

describe("from a dropped file to an exhibit", () => {
  let png: Buffer;
  let delay: string;
  let headline: string;

  beforeAll(async () => {
    const visit = await browser.visit();
    const { page } = visit;
    await dropFiles(page, [
      { name: "dead-catalyst-scope.csv.gz", bytes: readFileSync(samplePath("dead-catalyst-scope.csv.gz")) },
    ]);
    const [first] = await liftOffs(page, 3);
    delay = (await first!.getAttribute("aria-label"))!.split("delay ")[1]!;
    await first!.click();
    await page.getByRole("slider", { name: /front to rear/ }).waitFor();
    await page.getByRole("button", { name: "Make exhibit" }).first().click();
    const dialog = page.getByRole("dialog");
    await dialog.getByRole("img", { name: /Preview/ }).waitFor();
    headline = await dialog.getByRole("textbox", { name: "Headline" }).inputValue();
    await dialog.getByRole("button", { name: "Make exhibit" }).click();
    // The button is gone with what it was for; the keyboard goes on from the next one.
    await dialog.getByText(/Made, and kept/).waitFor();
    expect(await dialog.getByRole("button", { name: "Done" }).evaluate((done) => done === document.activeElement)).toBe(
      true,
    );
    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: /PNG/ }).first().click();
    png = readFileSync(await (await download).path());
    await page.evaluate(() => (document.activeElement as HTMLElement).blur());
    await page.keyboard.press("Escape");
    await dialog.waitFor({ state: "hidden" });
    await leave(visit);
  });

  test("the picture is a PNG at least 2400 px wide", () => {
    // PNG specification (W3C, third edition), 11.2.1: width and height follow the signature and the IHDR tag.
    expect(png.subarray(1, 4).toString()).toBe("PNG");
    expect(png.readUInt32BE(16)).toBeGreaterThanOrEqual(2400);
    expect(png.readUInt32BE(20) / png.readUInt32BE(16)).toBeCloseTo(210 / 297, 1);
  });

  test("its delay, bounds and headline can be read back from the pixels", async () => {
    const [words] = await readWords([png.toString("base64")], "sheet");
    const text = words!.replace(/\s+/g, " ");
    const [value, low, high] = [...delay.matchAll(/\d+(?:\.\d+)?/g)].map((m) => m[0]);
    expect(text).toContain(value!);
    expect(text).toMatch(new RegExp(`${low!.replace(".", "\\.")}\\D{1,6}${high!.replace(".", "\\.")}`));
    expect(text).toContain(headline.split(":")[0]!);
    expect(text).toContain("dead-catalyst-scope");
  });
});
