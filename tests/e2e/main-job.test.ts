// The main job on the built page: from a file dropped to an exhibit read back from its pixels. The truth is the
// simulator's: true crossing times of noise-free sensor voltages.

import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { root } from "../../src/command/setup.mjs";
import type { Analysis, Sensor } from "../../src/exhaust/terms/analysis.ts";
import { formatReading } from "../../src/signal/written/reading-text.ts";
import { readWords } from "../ocr.ts";
import { ofKinds } from "../share.ts";
import { leave, useBrowser, type Visit } from "./page.ts";
import { claimOf, dropFiles, liftOffs, openFile, samplePath, thinned, truthOf } from "./steps.ts";

const browser = useBrowser();

const words: Readonly<Partial<Record<keyof Sensor, string>>> = {
  frequency: "Switching",
  amplitude: "Swing",
  richToLean: "Rich to lean",
  leanToRich: "Lean to rich",
  crossings: "Crossings of 0.45 V",
  richShare: "Rich share",
  minimum: "Minimum",
  maximum: "Maximum",
  mean: "Mean",
};

/** Of this one hardly a reading can be made: what is claimed of it all the same is what there is to test. */
const isBare = (file: string) => file === "dead-catalyst-polled.csv";

/** What the command line says of a file. */
function measured(path: string): Analysis {
  const call = [join(root, "src/command/built.mjs"), "measure", path, "--json"];
  return JSON.parse(execFileSync(process.execPath, call, { encoding: "utf8", maxBuffer: 1 << 27 })) as Analysis;
}

const files = [
  ["good-catalyst-scope.csv.gz"],
  ["dead-catalyst-scope.csv.gz"],
  ["good-catalyst-polled.csv"],
  ["dead-catalyst-polled.csv"],
] as const;
const short = ["dead-catalyst-scope.csv.gz", "good-catalyst-polled.csv", "dead-catalyst-polled.csv"];

describe.each(ofKinds(short, files))("%s on the page", (file) => {
  const truth = truthOf(file.split(".")[0]!).liftOffs;
  let visit: Visit;
  let shown: string[];
  beforeAll(async () => {
    visit = await browser.visit();
    await openFile(visit.page, samplePath(file));
    const buttons = await liftOffs(visit.page, truth.length);
    shown = await Promise.all(buttons.map(async (button) => (await button.getAttribute("aria-label"))!));
  });
  afterAll(() => leave(visit));

  test("shows delays that hold the simulator's truth", () => {
    expect(shown.length).toBe(truth.length);
    for (const [i, label] of shown.entries()) {
      const claim = claimOf(label.split("delay ")[1]!);
      expect(claim.low, label).toBeLessThanOrEqual(truth[i]!.delay!);
      expect(claim.high, label).toBeGreaterThanOrEqual(truth[i]!.delay!);
    }
  });

  if (isBare(file)) {
    test("claims none where the sampling cannot support it", async () => {
      // Truth is about 0.06 s, a row takes about 0.3 s: nothing but an upper bound can be known.
      expect(shown[0]).toMatch(/delay at most/);
      const readings = visit.page.getByRole("region", { name: "Readings" });
      for (const name of ["Front, Rich to lean", "Front, Lean to rich", "Front, Switching"]) {
        await readings.getByRole("button", { name: `${name}: not measurable` }).waitFor();
      }
    });
  } else {
    test("gives the numbers of the command line: the page and it are one engine", async () => {
      const { sensors, liftOffs: events } = measured(samplePath(file));
      expect(events.length).toBe(shown.length);
      for (const [i, label] of shown.entries()) expect(label).toContain(formatReading(events[i]!.delay).value);
      const panel = visit.page.getByRole("region", { name: "Readings" });
      for (const [side, sensor] of [["Front", sensors.front!] as const, ["Rear", sensors.rear!] as const]) {
        for (const [name, word] of Object.entries(words)) {
          const { value } = formatReading(sensor[name as keyof Sensor]);
          const button = panel.getByRole("button", { name: new RegExp(`^${side}, ${word}: `) });
          await button.waitFor();
          expect(await button.getAttribute("aria-label")).toContain(value);
        }
      }
    });
  }
});

describe("from a dropped file to an exhibit", () => {
  let png: Buffer;
  let delay: string;
  let headline: string;

  beforeAll(async () => {
    const visit = await browser.visit();
    const { page } = visit;
    const { name, buffer } = thinned("dead-catalyst-scope");
    await dropFiles(page, [{ name, bytes: buffer }]);
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
