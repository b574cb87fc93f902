// How soon the built page answers again: after an edit, after a reload, compared with another; and what five recordings take.

import { join } from "node:path";
import type { Page } from "playwright";
import { root } from "../../src/command/setup.mjs";
import { samplePath } from "../e2e/steps.ts";
import { type Bench, megabytes, ms } from "./bench.ts";
import { type InBrowser, inBrowser } from "./in-browser.ts";

/** 206 s of 6 channels at 1 kHz. */
const suspect = "dead-catalyst-scope.csv.gz";
const others = ["good", "worn", "slow-front-sensor", "rear-sensor-asleep"];
/** Not that of a first look. */
const answer = ".verdict:not(.early)";
const patience = { timeout: 120_000 };

export const bench: Bench = {
  name: "again",
  async run() {
    const browser = await inBrowser(join(root, "dist"));
    const { page } = browser;
    // The runner's compiler names functions by a helper that a page does not have.
    await page.addInitScript({ content: "globalThis.__name = (given) => given;" });
    await page.reload();
    const opened = await timed(async () => {
      await browser.choose(samplePath(suspect));
      await page.locator(answer).waitFor(patience);
    });
    await rested(page);
    const edited = await setAside(page);
    await rested(page);
    await page.reload();
    await page.locator(answer).waitFor(patience);
    const reloaded = await page.evaluate(() => performance.now());
    const compared = await compareWithAnother(browser, page);
    const memory = await fiveRecordings(browser, page);
    await browser.close();
    const rehearsed = await afterWaiting();
    const anew = `opened and measured ${ms(opened)}`;
    const against = (took: number) => `${(took / opened).toFixed(2)}x`;
    return [
      row(
        "a file chosen once the page has waited, to its answer",
        "<= 1.0 s",
        1000,
        rehearsed,
        anew,
        against(rehearsed),
      ),
      row("a lift-off set aside, until its new answer stands", "<= 0.2 s", 200, edited, anew, against(edited)),
      row("reload of a job to its last verdict", "<= 0.7 s", 700, reloaded, anew, against(reloaded)),
      row(
        "two measured recordings compared, beyond their answers",
        "<= 1.0 s",
        1000,
        compared,
        anew,
        against(compared),
      ),
      {
        what: "a job of five such recordings: memory of the page's process, peak and at rest",
        budget: "-",
        figure: `${megabytes(memory.peak)}, ${megabytes(memory.rest)}`,
        peer: `with one ${megabytes(memory.one)}`,
        ratio: `${(memory.rest / memory.one).toFixed(2)}x`,
        holds: true,
      },
    ];
  },
};

/** The page runs through that work beforehand; for so long, ms. */
const waiting = 20_000;

async function afterWaiting(): Promise<number> {
  const browser = await inBrowser(join(root, "dist"));
  await browser.page.waitForTimeout(waiting);
  const took = await timed(async () => {
    await browser.choose(samplePath(suspect));
    await browser.page.locator(answer).waitFor(patience);
  });
  await browser.close();
  return took;
}

const row = (what: string, budget: string, most: number, took: number, peer: string, ratio: string) => ({
  what: `${what} (206 s, 6 channels at 1 kHz)`,
  budget,
  figure: ms(took),
  peer,
  ratio,
  holds: took <= most,
});

async function timed(work: () => Promise<void>): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}

/** What is measured beside the answer is done, and what was measured is kept. */
async function rested(page: Page) {
  await page
    .getByRole("progressbar")
    .first()
    .waitFor({ state: "hidden", ...patience });
  await page.waitForTimeout(3000);
}

/** The answer of the file that was just chosen: that of the one before may still stand for some seconds. */
async function answeredAfter(page: Page) {
  await page.waitForTimeout(3000);
  await page.locator(answer).waitFor(patience);
  await rested(page);
}

/** In the page, from the touch to the frame that shows it. */
async function setAside(page: Page): Promise<number> {
  await page.getByRole("button", { name: /^Lift-off 1 at/ }).click();
  await page.getByRole("button", { name: "Set aside" }).click();
  await page.getByLabel("Why does it not count?").fill("gear change");
  return page.evaluate(async () => {
    const buttons = [...document.querySelectorAll("button")];
    const start = performance.now();
    buttons.find(({ textContent }) => textContent?.trim() === "Set aside")!.click();
    while (!document.querySelector("button.event.rejected")) await new Promise((shown) => requestAnimationFrame(shown));
    return performance.now() - start;
  });
}

/** Both have their answers already: what is left is laying one under the other. */
async function compareWithAnother(browser: InBrowser, page: Page): Promise<number> {
  await browser.choose(samplePath("good-catalyst-scope.csv.gz"));
  await answeredAfter(page);
  await page.getByRole("button", { name: "Compare", exact: true }).click();
  const offer = page.getByRole("button", { name: `Compare with ${suspect}` });
  await offer.waitFor(patience);
  return timed(async () => {
    await offer.click();
    await page.getByText(`Against ${suspect}`).waitFor(patience);
  });
}

async function fiveRecordings(browser: InBrowser, page: Page) {
  await page.getByRole("tab", { name: "Answer" }).click();
  const one = browser.memory();
  for (const name of others.slice(1)) {
    await browser.choose(
      samplePath(`${name}${name.endsWith("sensor") || name.endsWith("asleep") ? "" : "-catalyst"}-scope.csv.gz`),
    );
    await answeredAfter(page);
  }
  return { one, rest: browser.memory(), peak: browser.peakMemory() };
}
