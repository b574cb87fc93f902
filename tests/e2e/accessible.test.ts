// Every main state is clean for axe-core, in light and dark, some on a phone and in forced colours as well, and its controls are
// large enough for a finger.

import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { AxeResults } from "axe-core";
import type { Page } from "playwright";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { isLongForm } from "../share.ts";
import { beyondTheWindow, leave, sizes, useBrowser, type Visit } from "./page.ts";
import { visits } from "./states.ts";

const browser = useBrowser();
const axeSource = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/**
 * Those that a phone shows otherwise than a tablet: papers, the exhibit's sheet. `npm run full:accessible` looks at all of them
 * on a phone and in forced colours.
 */
const onPhone: readonly string[] = ["exhibit", "papers"];
const isEverywhere = import.meta.env.EVERY_WINDOW === "yes";

/** The way to these takes another recording, or two of them: `npm run long:page` goes it. */
const onlyLong: readonly string[] = ["polled-open", "same-run", "shelf", "compare"];
const ways = visits().filter((way) => isLongForm || !way.some(({ name }) => onlyLong.includes(name)));

describe.each(ways)("each main state, in light and wide and then, unchanged, in dark on a tablet", (...way) => {
  let visit: Visit;
  beforeAll(async () => {
    visit = await browser.visit({ theme: "light", size: "wide" });
    await visit.page.evaluate(axeSource);
  });
  afterAll(() => leave(visit));

  test.each(way)("$name", async ({ name, reach }) => {
    const { page } = visit;
    await reach(page);
    await expectAccessible(page);
    await page.emulateMedia({ colorScheme: "dark" });
    await page.setViewportSize(sizes.tablet);
    await expectAccessible(page);
    if (isEverywhere || onPhone.includes(name)) {
      await page.setViewportSize(sizes.phone);
      await expectAccessible(page);
      await page.emulateMedia({ colorScheme: "light", forcedColors: "active" });
      await expectAccessible(page);
    }
    await page.emulateMedia({ colorScheme: "light", forcedColors: "none" });
    await page.setViewportSize(sizes.wide);
  });
});

async function expectAccessible(page: Page): Promise<void> {
  // All rules of axe-core 4 (Deque), of best practice too. Evaluated by the driver, so no policy stands in its way.
  const { violations } = await page.evaluate(() =>
    (globalThis as unknown as { axe: { run(): Promise<AxeResults> } }).axe.run(),
  );
  expect(
    violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(" | ")}`),
  ).toEqual([]);
  expect(await tooSmall(page)).toEqual([]);
  // Nothing is cut off sideways.
  expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
  expect(await beyondTheWindow(page)).toEqual([]);
  expect(await lengthened(page)).toEqual([]);
}

/** Parts that scroll although what scrolls lies within them: the page, but on a phone, and a sheet over it. */
function lengthened(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const sheets = [...document.querySelectorAll("dialog[open]")];
    const parts = window.innerWidth > 820 ? [document.documentElement, ...sheets] : sheets;
    return parts.filter((part) => part.scrollHeight > part.clientHeight + 2).map((part) => part.tagName);
  });
}

/**
 * WCAG 2.2, success criterion 2.5.5: 44 by 44 CSS pixels. A stretch is as wide as it lasted, so only the height is asked
 * for of those that are wide enough: they take touches beyond their band.
 */
function tooSmall(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const touchHeight = (control: HTMLElement) => {
      // No point outside the window hits anything.
      control.scrollIntoView({ block: "center" });
      const { x, width, top, bottom, height } = control.getBoundingClientRect();
      const hits = (y: number) => document.elementFromPoint(x + width / 2, y) === control;
      const reach = (from: number, way: number) => {
        let far = 0;
        while (far < 44 && hits(from + way * (far + 1))) far++;
        return far;
      };
      return height + reach(top, -1) + reach(bottom, 1);
    };
    return [...document.querySelectorAll<HTMLElement>("button, summary, input:not([type=file]), select, textarea")]
      .filter((control) => control.checkVisibility() && !control.closest("[inert]"))
      .filter((control) => document.querySelector("dialog[open]") === null || control.closest("dialog[open]"))
      .filter((control) => {
        const box = (control.closest("label") ?? control).getBoundingClientRect();
        if (control.classList.contains("stretch")) return box.width >= 44 && touchHeight(control) < 43;
        return box.height > 0 && (box.height < 43.5 || box.width < 43.5);
      })
      .map((control) => control.outerHTML.slice(0, 120));
  });
}
