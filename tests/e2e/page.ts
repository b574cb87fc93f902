// Drives the built page in Chromium as a user would, and holds every test to the same silence: nothing on the console,
// no request to anywhere but the page's own origin.

import { type Browser, type BrowserContext, chromium, type Page } from "playwright";
import { expect, inject } from "vitest";
import { launchOptions } from "../browser.ts";

export const sizes = {
  wide: { width: 1280, height: 800 },
  tablet: { width: 1024, height: 768 },
  phone: { width: 390, height: 844 },
} as const;

export interface Look {
  /** Whether the program is kept in the browser, as it is for people. Without, each visit fetches what it needs and no more. */
  readonly kept?: boolean;
  /** Whether the page runs through a first answer while it waits for a file, as it does for people: seconds of a processor. */
  readonly rehearsed?: boolean;
  readonly size?: keyof typeof sizes;
  readonly theme?: "light" | "dark";
  /** A screen that is touched. */
  readonly touch?: boolean;
}

export interface Visit {
  readonly page: Page;
  readonly context: BrowserContext;
  /** What the console said beyond "log", and what was asked of other origins. */
  readonly noise: string[];
  close(): Promise<void>;
}

let launched: Promise<Browser> | undefined;

/** One browser for all test files of a run: it ends with the process that started it. */
export function theBrowser(): Promise<Browser> {
  launched ??= chromium.launch(launchOptions);
  return launched;
}

/** Visits to the page, each in a profile of its own. */
export function useBrowser(): { visit(look?: Look): Promise<Visit> } {
  return { visit: async (look) => openPage(await theBrowser(), inject("address"), look) };
}

/** A fresh profile on the page, with its noise recorded. */
export async function openPage(browser: Browser, address: string, look: Look = {}): Promise<Visit> {
  const context = await browser.newContext({
    viewport: sizes[look.size ?? "wide"],
    colorScheme: look.theme ?? "light",
    reducedMotion: "reduce",
    hasTouch: look.touch ?? false,
    acceptDownloads: true,
  });
  if (!look.kept)
    await context.addInitScript("Object.defineProperty(Navigator.prototype, 'serviceWorker', { get() {} })");
  if (!look.rehearsed) await context.addInitScript("window.requestIdleCallback = () => 0");
  const page = await context.newPage();
  const noise = listen(page, new URL(address).origin);
  await page.goto(address);
  return { page, context, noise, close: () => context.close() };
}

/** Records what a quiet page never does. */
export function listen(page: Page, origin: string): string[] {
  const noise: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") noise.push(`${message.type()}: ${message.text()}`);
  });
  page.on("pageerror", (error) => noise.push(`page error: ${error.message}`));
  page.on("request", (request) => {
    const url = new URL(request.url());
    if (url.protocol !== "blob:" && url.protocol !== "data:" && url.origin !== origin) noise.push(`request: ${url}`);
  });
  return noise;
}

/** Controls and lines of text that reach past the right edge of the window, where a panel would cut them off. */
export function beyondTheWindow(page: Page): Promise<string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll("button, input, select, textarea, p, h1, h2, h3, li, dd, td")]
      .filter((element) => element.checkVisibility() && element.getBoundingClientRect().right > window.innerWidth + 0.5)
      .map((element) => element.outerHTML.slice(0, 120)),
  );
}

/** Ends a visit and fails the test if the page was not quiet. */
export async function leave(visit: Visit): Promise<void> {
  await visit.close();
  expect(visit.noise).toEqual([]);
}
