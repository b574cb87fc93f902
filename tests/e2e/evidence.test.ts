// From the sample job to a finding, and from there to its evidence on the trace.

import type { Page } from "playwright";
import { describe, expect, test } from "vitest";
import { leave, useBrowser } from "./page.ts";
import { liftOffs, truthOf } from "./steps.ts";

const browser = useBrowser();
const soon = { timeout: 30_000 };

/** Numbers in a text, in the order in which they stand. */
const numbersIn = (text: string | null) => (text ?? "").match(/\d+(\.\d+)?/g)!.map(Number);

/** What the overview's frame says is in view, s. */
async function viewOf(page: Page): Promise<{ readonly from: number; readonly to: number }> {
  const frame = page.getByRole("slider", { name: "View", exact: true });
  const [from, to] = numbersIn(await frame.getAttribute("aria-valuetext"));
  return { from: from!, to: to! };
}

/** How often the pen comes down in all paths of a class: one ring, tick or bracket each. */
const drawn = (page: Page, kind: string) =>
  page
    .locator(`.evidence path.${kind}`)
    .evaluateAll((paths) => paths.map((p) => (p.getAttribute("d") ?? "").split("M").length - 1))
    .then((counts) => counts.reduce((sum, count) => sum + count, 0));

describe("the sample job", () => {
  test("leads from the finding to its evidence on the trace", async () => {
    const visit = await browser.visit();
    const { page } = visit;
    await page.getByRole("button", { name: /sample job/i }).click();
    await liftOffs(page, 3);
    const answer = page.getByRole("region", { name: "Answer" });
    await answer.getByText("Points to the catalyst", { exact: true }).waitFor({ timeout: 30_000 });

    // A steady stretch that speaks for it: the view goes there, a bracket marks it, and the note names it.
    await answer.getByText("Why").click();
    const door = answer.getByRole("button", { name: /rear swing over front swing/ }).first();
    const [, kind, ...ends] = (await door.textContent())!.match(/(idle|cruise)\s([\d.]+)\s…\s([\d.]+)\ss$/)!;
    const [from, to] = ends.map(Number) as [number, number];
    await door.click();
    await expect.poll(async () => (await viewOf(page)).from, soon).toBeGreaterThan(from - 0.1 * (to - from) - 1);
    const stretch = await viewOf(page);
    expect(stretch.from).toBeLessThanOrEqual(from);
    expect(stretch.to).toBeGreaterThanOrEqual(to);
    expect(stretch.to - stretch.from).toBeLessThan(1.3 * (to - from));
    expect(await drawn(page, "evidence-span")).toBe(1);
    expect(await page.getByRole("region", { name: "Stretch", exact: true }).textContent()).toContain(kind);

    // The lift-off that speaks for it: both falls in view, at the simulator's true times, with the delay drawn between.
    await answer.getByRole("button", { name: /rear fell after the front/ }).click();
    const truth = truthOf("dead-catalyst-scope").liftOffs[0]!;
    await page
      .getByRole("slider", { name: /front to rear/ })
      .first()
      .waitFor();
    const lift = await viewOf(page);
    expect(lift.from).toBeLessThan(truth.at);
    expect(lift.to).toBeGreaterThan(truth.at + truth.delay!);
    expect(lift.to - lift.from).toBeLessThan(10);

    // A reading there: each crossing that was counted has its ring, and the level its line.
    const reading = page.getByRole("button", { name: /^Front, Crossings of 0\.45 V: / });
    await expect.poll(async () => numbersIn((await reading.textContent())!)[0], soon).toBeLessThan(10);
    const count = numbersIn(await reading.textContent())[0]!;
    await reading.click();
    expect(await viewOf(page)).toEqual(lift);
    await expect.poll(() => drawn(page, "evidence-ring"), soon).toBe(count);
    expect(await drawn(page, "evidence-level")).toBe(1);

    // Over the whole recording rings would lie over each other: ticks stand for them, and the count is told.
    await page.getByRole("button", { name: "See all" }).click();
    await page.getByText(/^\d+ places; zoom in to see each$/).waitFor({ timeout: 30_000 });
    const told = numbersIn(await page.getByText(/zoom in to see each$/).textContent())[0]!;
    await expect.poll(async () => numbersIn((await reading.textContent())!)[0], soon).toBe(told);
    const all = await viewOf(page);
    const [ticks, rings] = [await drawn(page, "evidence-tick"), await drawn(page, "evidence-ring")];
    expect(ticks + rings).toBeGreaterThan(50);
    expect(ticks + rings).toBeLessThan(told);

    // Touched again it is let go of, and the view stays.
    await reading.click();
    expect(await drawn(page, "evidence-tick")).toBe(0);
    expect(await viewOf(page)).toEqual(all);
    await leave(visit);
  });
});
