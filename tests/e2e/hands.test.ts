// Hands on the trace of the built page: by finger on a tablet and a phone, by mouse and by key; and moving about.

import type { Page } from "playwright";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { ofKinds } from "../share.ts";
import { leave, useBrowser, type Visit } from "./page.ts";
import { claimOf, isSaved, lanes, liftOffs, openFile, thinned, viewOf } from "./steps.ts";

const browser = useBrowser();
const sample = thinned("dead-catalyst-scope");

/** A finger on the lanes, at shares of their width and height: as the browser's own touch input sends it. */
async function fingerOn(page: Page) {
  const input = await page.context().newCDPSession(page);
  const box = (await lanes(page).boundingBox())!;
  const send = (type: "touchStart" | "touchMove", x: number, y: number) =>
    input.send("Input.dispatchTouchEvent", {
      type,
      touchPoints: [{ x: box.x + x * box.width, y: box.y + y * box.height }],
    });
  return {
    down: (x: number, y: number) => send("touchStart", x, y),
    along: (x: number, y: number) => send("touchMove", x, y),
    lift: () => input.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] }),
  };
}

describe.each(ofKinds(["tablet"], [["tablet"], ["phone"]] as const))("by finger on a %s", (size) => {
  test("a drag reads every channel with a loupe, a long press holds, the table tells the difference", async () => {
    const visit = await browser.visit({ size, touch: true });
    const { page } = visit;
    await openFile(page, sample);
    const before = await viewOf(page);
    const bar = page.getByRole("region", { name: "Values at an instant" });
    const finger = await fingerOn(page);

    await finger.down(0.4, 0.2);
    await finger.along(0.45, 0.2);
    await finger.along(0.6, 0.2);
    await page.locator(".loupe .loupe-line").first().waitFor({ state: "attached" });
    // Front, rear, throttle, engine speed, air flow.
    await expect.poll(() => page.locator(".readout text").count()).toBe(5);
    expect(await viewOf(page)).toBe(before);
    expect(await bar.count()).toBe(0);
    await finger.lift();
    await bar.waitFor();
    expect(await page.locator(".loupe").count()).toBe(0);

    await finger.down(0.5, 0.2);
    await bar.getByText(/from the held/).waitFor();
    await finger.along(0.6, 0.2);
    await finger.along(0.7, 0.2);
    await finger.lift();
    await bar.getByText(/\+\d+.* from the held/).waitFor();
    // The bar's words may wrap anew under the finger: then a person taps again.
    const values = bar.getByRole("button", { name: "Values" });
    const open = async () => {
      if ((await values.getAttribute("aria-expanded")) !== "true") await values.tap();
      return values.getAttribute("aria-expanded");
    };
    await expect.poll(open).toBe("true");
    const row = bar.getByRole("row", { name: /^Engine speed/ });
    await row.waitFor();
    expect(await row.getByRole("cell").count()).toBe(3);
    await bar.getByRole("button", { name: "End reading out" }).tap();
    await bar.waitFor({ state: "detached" });
    await leave(visit);
  });
});

describe("by mouse and key, in one visit", () => {
  let visit: Visit;
  let page: Page;
  beforeAll(async () => {
    visit = await browser.visit();
    page = visit.page;
    await openFile(page, sample);
    await liftOffs(page, 3);
  });
  afterAll(() => leave(visit));

  test("R reads in the middle of the view, arrows go on, M holds, and a slider tells the values", async () => {
    await page.keyboard.press("r");
    const slider = page.getByRole("slider", { name: "Read here" });
    await expect.poll(() => slider.evaluate((one) => one === document.activeElement)).toBe(true);
    await expect.poll(() => slider.getAttribute("aria-valuetext")).toMatch(/Front .*V, Rear .*V/);
    const first = Number(await slider.getAttribute("aria-valuenow"));
    await page.keyboard.press("m");
    await page.keyboard.press("Shift+ArrowRight");
    expect(Number(await slider.getAttribute("aria-valuenow"))).toBeGreaterThan(first);
    await page.getByText(/from the held/).waitFor();
    await page.getByRole("button", { name: "End reading out" }).click();
  });

  test("the row of stretches is one stop, and arrows reach each of them", async () => {
    const row = page.getByRole("toolbar", { name: "Stretches" });
    const all = row.getByRole("button");
    expect(await row.locator("[tabindex='0']").count()).toBe(1);
    await all.first().focus();
    for (let i = 1; i < (await all.count()); i++) await page.keyboard.press("ArrowRight");
    expect(await all.last().evaluate((one) => one === document.activeElement)).toBe(true);
    expect(await all.last().getAttribute("aria-current")).toBe("true");
  });

  test("lights up what it will be set on, agrees with the delay found, and refuses what cannot be", async () => {
    const [first] = await liftOffs(page, 3);
    const delay = claimOf((await first!.getAttribute("aria-label"))!.split("delay ")[1]!);
    await first!.click();
    const box = (await lanes(page).boundingBox())!;
    /** Where the found delay's two falls stand, pixels of the lanes. */
    const falls = async () => {
      const d = (await page.locator(".dimension-line").first().getAttribute("d"))!;
      return [...d.matchAll(/M(-?[\d.]+)/g)].slice(0, 2).map(([, x]) => Number(x)) as [number, number];
    };
    await page.getByRole("slider", { name: /front to rear/ }).waitFor();
    await page.mouse.move(box.x + (await falls())[0], box.y + 100);
    await page.mouse.wheel(0, -1200);
    await expect.poll(async () => (await falls())[1] - (await falls())[0]).toBeGreaterThan(30);
    const [front, rear] = await falls();

    await page.getByRole("button", { name: "Time pair", exact: true }).click();
    await page.mouse.move(box.x + front - 7, box.y + 60);
    await page.mouse.down();
    await page.mouse.move(box.x + rear + 7, box.y + 80, { steps: 8 });
    await expect.poll(() => page.locator(".lit text").allTextContents()).toEqual(["crossing", "crossing"]);
    await page.mouse.up();
    const hand = page.getByRole("region", { name: "Pair in hand" });
    await expect.poll(() => hand.getByText(/^on a crossing of/).count()).toBe(2);
    const pair = claimOf((await hand.getByRole("paragraph").first().textContent())!.replace(/^Time pair/, ""));
    expect(pair.low).toBeLessThanOrEqual(delay.high);
    expect(pair.high).toBeGreaterThanOrEqual(delay.low);

    const from = hand.getByLabel(/^From/);
    const kept = await from.inputValue();
    await from.fill("9999");
    await page.keyboard.press("Enter");
    await hand.getByText(/^The recording goes from/).waitFor();
    await from.fill("soon");
    await page.keyboard.press("Enter");
    await hand.getByText(/^“soon” is not a number/).waitFor();
    await from.fill(kept);
    await page.keyboard.press("Enter");
    await expect.poll(() => hand.getByText(/^(The recording|“soon”)/).count()).toBe(0);

    // A new pair begins on the one that stands: its press is not taken by the line below it.
    const before = await hand.getByRole("paragraph").first().textContent();
    await page.getByRole("button", { name: "Time pair", exact: true }).click();
    const line = (await page.getByRole("slider", { name: /^Time pair: / }).boundingBox())!;
    await page.mouse.move(line.x + line.width / 2, line.y + line.height / 2);
    await page.mouse.down();
    await page.mouse.move(line.x + line.width / 2 + 200, line.y + line.height / 2, { steps: 5 });
    await page.mouse.up();
    await expect.poll(() => hand.getByRole("paragraph").first().textContent()).not.toBe(before);
  });

  test("the table of values and the fields of a pair take each other's place: lanes stay high enough to read", async () => {
    const hand = page.getByRole("region", { name: "Pair in hand" });
    await hand.waitFor();
    await page.keyboard.press("r");
    await page.keyboard.press("m");
    const table = page.getByRole("region", { name: "All values" });
    await page.getByRole("button", { name: "Values", exact: true }).click();
    await table.waitFor();
    await hand.waitFor({ state: "detached" });
    expect((await page.locator(".lane-sheet").first().boundingBox())!.height).toBeGreaterThan(90);
    await page.getByRole("slider", { name: /^Time pair: / }).focus();
    await page.keyboard.press("Enter");
    await hand.waitFor();
    await table.waitFor({ state: "detached" });
    await page.getByRole("button", { name: "End reading out" }).click();
  });

  test("to a box, back and forward, by words; a named span and the view are there after a reload", async () => {
    const whole = await viewOf(page);
    const box = (await lanes(page).boundingBox())!;
    const drag = async (from: readonly [number, number], to: readonly [number, number]) => {
      await page.mouse.move(box.x + box.width * from[0], box.y + box.height * from[1]);
      await page.mouse.down();
      await page.mouse.move(box.x + box.width * to[0], box.y + box.height * to[1], { steps: 5 });
      await page.mouse.up();
    };

    await page.getByRole("button", { name: "Zoom to a box" }).click();
    await drag([0.3, 0.1], [0.5, 0.3]);
    await expect.poll(() => viewOf(page)).not.toBe(whole);
    expect(await page.getByRole("button", { name: "Hold scale" }).getAttribute("aria-pressed")).toBe("true");
    const boxed = await viewOf(page);
    await page.getByRole("button", { name: "View before" }).click();
    expect(await viewOf(page)).toBe(whole);
    await page.getByRole("button", { name: "View after" }).click();
    expect(await viewOf(page)).toBe(boxed);

    const goTo = page.getByRole("combobox", { name: "Go to" });
    await goTo.fill("lift-off 2");
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: /^Lift-off 2 at/ }).waitFor();
    await page.getByRole("slider", { name: /front to rear/ }).waitFor();
    await goTo.fill("nowhere");
    await page.getByText(/Nothing by that name/).waitFor();
    await goTo.fill("999 s");
    await page.getByText(/^The recording goes from 0\.0\ss to 205\.\d\ss\.$/).waitFor();
    await goTo.fill("1:10");
    await page.keyboard.press("Enter");
    await expect.poll(() => page.getByRole("slider", { name: "Read here" }).getAttribute("aria-valuenow")).toBe("70");

    await page.getByRole("button", { name: "Choose a span" }).click();
    await drag([0.3, 0.2], [0.7, 0.2]);
    const span = page.getByRole("region", { name: "Span" });
    await span.getByRole("button", { name: "Name it" }).click();
    await span.getByRole("textbox", { name: "Name" }).fill("rough idle");
    await page.keyboard.press("Enter");
    const remembered = () => page.evaluate(() => localStorage.getItem("tracewright-views"));
    await expect.poll(remembered).toMatch(/"span":\{/);
    const unzoomed = await remembered();
    await span.getByRole("button", { name: "Zoom to it" }).click();
    await page
      .getByRole("region", { name: "Marks and spans" })
      .getByRole("button", { name: "Go to rough idle" })
      .waitFor();
    const [view, words] = [await viewOf(page), await span.getByRole("paragraph").textContent()];
    await isSaved(page);
    await expect.poll(remembered).not.toBe(unzoomed);
    await page.reload();
    await lanes(page).waitFor();
    await expect.poll(() => viewOf(page)).toBe(view);
    expect(await span.getByRole("paragraph").textContent()).toBe(words);
    await goTo.fill("rough");
    await page.getByRole("option", { name: /^rough idle/ }).waitFor();
  });

  test("words on the lanes are seen where the system gives the colours", async () => {
    await page.getByRole("button", { name: "Choose a span" }).click();
    await page.emulateMedia({ forcedColors: "active" });
    const colours = await page.locator(".lanes > .hint").evaluate((one) => {
      const { color, backgroundColor } = getComputedStyle(one);
      return { words: color, ground: backgroundColor, behindWords: getComputedStyle(document.body).backgroundColor };
    });
    expect(colours.ground).toBe(colours.behindWords);
    expect(colours.words).not.toBe(colours.behindWords);
    await page.emulateMedia({ forcedColors: "none" });
    await page.getByRole("button", { name: "Choose a span" }).click();
  });

  test("the tabs keep apart in the largest letters", async () => {
    await page.setViewportSize({ width: 1024, height: 768 });
    await page.getByRole("button", { name: "More" }).click();
    await page.getByRole("button", { name: "Size and keys …" }).click();
    await page.getByLabel("Letters", { exact: true }).selectOption({ label: "Largest" });
    await page.keyboard.press("Escape");
    const cut = page
      .getByRole("tab")
      .evaluateAll((tabs) => tabs.filter((tab) => tab.scrollWidth > tab.clientWidth).length);
    expect(await cut).toBe(0);
    await page.setViewportSize({ width: 1280, height: 800 });
  });

  test("single letters can be turned off", async () => {
    await page.getByRole("button", { name: "More" }).click();
    await page.getByRole("button", { name: "Size and keys …" }).click();
    await page.getByRole("checkbox", { name: /Single letters are keys/ }).uncheck();
    await page.keyboard.press("Escape");
    await page.keyboard.press("t");
    expect(await page.getByRole("button", { name: "Time pair", exact: true }).getAttribute("aria-pressed")).toBe(
      "false",
    );
  });
});
