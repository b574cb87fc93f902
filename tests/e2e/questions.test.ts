// The question screen on the built page: it opens by itself only when the reader is unsure, shows what each answer changes,
// and is remembered for files written alike.

import type { Page } from "playwright";
import { expect, test } from "vitest";
import { leave, useBrowser } from "./page.ts";
import { openFile } from "./steps.ts";

const browser = useBrowser();

/** A front sensor that switches every 50 rows and a rear one that hardly moves. */
function recording(header: string, time: ((i: number) => string) | null, rows = 600): string {
  const row = (i: number) => {
    const front = (0.45 + 0.35 * Math.sin((2 * Math.PI * i) / 50)).toFixed(3);
    const rear = (0.6 + 0.08 * Math.sin((2 * Math.PI * i) / 170)).toFixed(3);
    return [...(time ? [time(i)] : []), front, rear].join(",");
  };
  return `${header}\n${Array.from({ length: rows }, (_, i) => row(i)).join("\n")}\n`;
}

const csv = (name: string, text: string) => ({ name, mimeType: "text/csv", buffer: Buffer.from(text) });

const choose = (page: Page, file: ReturnType<typeof csv>) =>
  page.getByLabel("Recording file").first().setInputFiles(file);

const isOpen = (page: Page, name: string) =>
  page
    .getByRole("status")
    .filter({ hasText: `${name} is open` })
    .waitFor({ state: "attached" });

test("a file without time asks for the rate, and the next one like it does not ask", async () => {
  const visit = await browser.visit();
  const { page } = visit;
  const text = recording("Front O2 (V),Rear O2 (V)", null);
  await choose(page, csv("first.csv", text));
  const sheet = page.getByRole("dialog");
  await sheet.getByText("There is no time in this file").waitFor();
  expect(await sheet.getByRole("button", { name: "Read it like this" }).isDisabled()).toBe(true);
  await sheet.getByLabel("Samples per second").pressSequentially("50");
  // The second row is 1/50 s after the first.
  await sheet
    .getByRole("row")
    .filter({ hasText: /^0\.02/ })
    .waitFor();
  await sheet.getByRole("button", { name: "Read it like this" }).click();
  await isOpen(page, "first.csv");
  await openFile(page, csv("second.csv", text.replace("0.450", "0.451")));
  expect(await page.getByRole("dialog").count()).toBe(0);
  await leave(visit);
});

test("channels without telling names are one question, answered by one touch", async () => {
  const visit = await browser.visit();
  const { page } = visit;
  await choose(
    page,
    csv(
      "scope.csv",
      recording("Time (s),CH1 (V),CH2 (V)", (i) => (i / 50).toFixed(2)),
    ),
  );
  const sheet = page.getByRole("dialog");
  await sheet.getByText("CH1 and CH2 move like oxygen sensors").waitFor();
  await sheet.getByRole("button", { name: "CH1 before, CH2 after" }).click();
  await sheet.getByRole("button", { name: "Read it like this" }).click();
  await isOpen(page, "scope.csv");
  // 600 rows at 50 a second switch once a second: the front sensor is measured.
  await page
    .getByRole("region", { name: "Readings" })
    .getByRole("button", { name: /^Front, Switching: 1\.0/ })
    .waitFor();
  await leave(visit);
});

test("reading it differently changes the time and keeps a pinned dimension", async () => {
  const visit = await browser.visit();
  const { page } = visit;
  await openFile(
    page,
    csv(
      "run.csv",
      recording("Time,Front O2 (V),Rear O2 (V)", (i) => (i / 50).toFixed(2)),
    ),
  );
  await page.getByRole("button", { name: "Time pair", exact: true }).click();
  const box = (await page.getByRole("application").boundingBox())!;
  await page.mouse.move(box.x + box.width * 0.4, box.y + 90);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * 0.6, box.y + 90, { steps: 5 });
  await page.mouse.up();
  const pairs = page.getByRole("region", { name: "Dimensions" }).getByRole("group");
  await expect.poll(() => pairs.count()).toBe(1);

  await page.getByRole("tab", { name: "Channels" }).click();
  await page.getByRole("button", { name: /Read it differently/ }).click();
  const sheet = page.getByRole("dialog");
  await sheet.getByLabel("Unit of the time").selectOption("minutes");
  await sheet.getByRole("row").filter({ hasText: /^1\.2/ }).waitFor(); // 0.02 min
  await sheet.getByRole("button", { name: "Read it like this" }).click();
  await sheet.waitFor({ state: "detached" });
  // 600 rows, 0.02 min apart: 719 s.
  await page.getByRole("tab", { name: "Answer" }).click();
  await page
    .getByText(/719|11 min 59|12 min/)
    .first()
    .waitFor();
  expect(await pairs.count()).toBe(1);
  await leave(visit);
});
