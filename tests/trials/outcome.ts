// What becomes of a file that falls on the page: opened, asked about, explained; and whether the page stood still meanwhile.

import type { Page } from "playwright";

export interface Seen {
  readonly isOpened: boolean;
  readonly isAsked: boolean;
  /** The problem that is shown, as it is worded; "" where there is none. */
  readonly said: string;
  /** Where the page stood still above the limit, or no way to cancel was there. */
  readonly hangs: readonly string[];
}

/** The longest the page may take no word, ms. */
const mostStill = 2_000;
/** The longest a file may take altogether, ms. */
const patience = 120_000;

/** Runs in the page: notes the longest time in which it took no word. */
export function watchThread(): void {
  let last = performance.now();
  const page = window as unknown as { longestStill: number };
  page.longestStill = 0;
  setInterval(() => {
    const now = performance.now();
    page.longestStill = Math.max(page.longestStill, now - last);
    last = now;
  }, 50);
}

/** @param isOpened  looked at until it is so, something is said, or asked. */
export async function outcomeOf(
  page: Page,
  act: () => Promise<void>,
  { isOpened }: { isOpened(): Promise<boolean> },
): Promise<Seen> {
  await clear(page);
  const busySeconds = await countBusy(page);
  await page.evaluate(() => {
    (window as unknown as { longestStill: number }).longestStill = 0;
  });
  await act();
  const began = Date.now();
  let waited = 0; // with nothing to be seen and no way to cancel, ms
  for (;;) {
    const [opened, asked, said, canCancel] = await Promise.all([
      isOpened(),
      isAskedOn(page),
      saidOn(page),
      canCancelOn(page),
    ]);
    const isBusy = canCancel || (await isReading(page));
    if ((opened || asked || said !== "") && !isBusy) break;
    if (!isBusy) waited = Date.now() - began;
    if (Date.now() - began > patience) return { isOpened: opened, isAsked: asked, said, hangs: ["no outcome"] };
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  await quietAgain(page);
  const still = await page.evaluate(() => (window as unknown as { longestStill: number }).longestStill);
  const busy = await busySeconds();
  // On a machine that does other work too, only what the page itself did counts.
  const hangs = [
    ...(still > mostStill && 1_000 * busy > mostStill ? [`stood still for ${(still / 1_000).toFixed(1)} s`] : []),
    ...(waited > 10_000 ? [`no way to cancel for ${(waited / 1_000).toFixed(0)} s`] : []),
  ];
  return { isOpened: await isOpened(), isAsked: await isAskedOn(page), said: await saidOn(page), hangs };
}

/** What is said last may come after the file is open: until nothing is read and saved any more. */
async function quietAgain(page: Page): Promise<void> {
  const until = Date.now() + patience;
  const isQuiet = async () => {
    const facts = page.getByRole("group", { name: "Job" });
    const isSaving = (await facts.count()) > 0 && /(^|· )saving$/.test((await facts.first().textContent()) ?? "");
    return !isSaving && !(await canCancelOn(page)) && !(await isReading(page));
  };
  for (let quiet = 0; quiet < 5 && Date.now() < until; quiet = (await isQuiet()) ? quiet + 1 : 0) {
    await new Promise((resolve) => setTimeout(resolve, 80));
  }
}

/** Counts from now on; the count begins anew with each session, so one is kept to the end. @returns processor time of the page's own thread, s. */
async function countBusy(page: Page): Promise<() => Promise<number>> {
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable", { timeDomain: "threadTicks" });
  return async () => {
    const { metrics } = await session.send("Performance.getMetrics");
    await session.detach();
    const seconds = (of: string) => metrics.find(({ name }) => name === of)?.value ?? 0;
    return seconds("TaskDuration") - seconds("DevToolsCommandDuration"); // what the trial itself asks of the page is not the page's work
  };
}

async function clear(page: Page): Promise<void> {
  for (const name of ["Dismiss", "Keep apart"]) {
    const button = page.getByRole("button", { name, exact: true }).first();
    if (await button.isVisible()) await button.click();
  }
  if (await isAskedOn(page)) await page.keyboard.press("Escape");
}

const isAskedOn = (page: Page) => page.getByRole("dialog").first().isVisible();
const canCancelOn = (page: Page) => page.locator(".notes").getByRole("button", { name: "Cancel" }).first().isVisible();
const isReading = (page: Page) => page.getByRole("progressbar").first().isVisible();

async function saidOn(page: Page): Promise<string> {
  const note = page.locator(".problem-note").first();
  if (!(await note.isVisible())) return "";
  return (await note.locator("p").allTextContents()).join(" ").replace(/\s+/g, " ");
}
