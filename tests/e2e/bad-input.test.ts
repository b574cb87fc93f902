// Whatever falls on the bench, it gives a clear problem or a remark, and nothing that was there is lost.

import { deflateSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { leave, useBrowser } from "./page.ts";
import { dropFiles, liftOffs, openFile, samplePath } from "./steps.ts";

const browser = useBrowser();
const text = (content: string) => Buffer.from(content, "utf8");
const rows = (n: number, cell: (i: number) => string) => Array.from({ length: n }, (_, i) => cell(i)).join("\n");
const picture = Buffer.concat([Buffer.from("\x89PNG\r\n\x1a\n", "latin1"), deflateSync(Buffer.alloc(500))]);

/** A file that cannot be opened, and a word its problem must hold. */
const refused: [string, Buffer, RegExp][] = [
  ["empty.csv", text(""), /empty/i],
  ["picture.csv", picture, /picture|image|PNG/i],
  ["words.csv", text(rows(20, () => "the quick brown fox jumps over the lazy dog")), /number|table|column/i],
  ["one-row.csv", text("time,front,rear\n0,0.1,0.2\n"), /row/i],
  ["header-only.csv", text("time,front,rear\n"), /row|number/i],
];

/** A file that opens, with something to say about it. */
const remarked: [string, Buffer, RegExp][] = [
  [
    "ragged.csv",
    text(`time,front O2 (V),rear O2 (V)\n${rows(60, (i) => (i === 30 ? `${i},0.4` : `${i},0.4,0.5`))}`),
    /cell|row|missing|short/i,
  ],
  [
    "cells.csv",
    text(`time,front O2 (V),rear O2 (V)\n${rows(60, (i) => (i % 9 === 0 ? `${i},NaN,oops` : `${i},0.4,0.5`))}`),
    /cell|value|number|text/i,
  ],
  [
    "backwards.csv",
    text(`time,front O2 (V),rear O2 (V)\n${rows(60, (i) => `${i === 30 ? 12.5 : i},0.4,0.5`)}`),
    /back|order|earlier|sort/i,
  ],
  [
    "twice.csv",
    text(`time,front O2 (V),rear O2 (V)\n${rows(60, (i) => `${i === 30 ? 29 : i},0.4,0.5`)}`),
    /same|stamp|twice|dupl/i,
  ],
];

describe("with the sample open", () => {
  test.each(refused)("%s gives a problem and leaves the bench as it was", async (name, bytes, says) => {
    const visit = await browser.visit();
    const { page } = visit;
    await openFile(page, samplePath("good-catalyst-polled.csv"));
    await liftOffs(page, 3);
    await dropFiles(page, [{ name, bytes }]);
    const problem = page.getByRole("alert", { name: "Problem" });
    await problem.waitFor();
    expect(await problem.textContent()).toMatch(says);
    // What happened, where, and what would help: a paragraph each.
    expect(await problem.getByRole("paragraph").count()).toBe(3);
    expect((await liftOffs(page, 3)).length).toBe(3);
    await problem.getByRole("button", { name: "Dismiss" }).click();
    await expect.poll(() => problem.count()).toBe(0);
    await leave(visit);
  });

  test.each(remarked)("%s opens with a remark that says what was left out", async (name, buffer, says) => {
    const visit = await browser.visit();
    const { page } = visit;
    await openFile(page, { name, mimeType: "text/csv", buffer });
    await page.getByRole("tab", { name: "Channels" }).click();
    await expect.poll(() => page.getByRole("tabpanel").textContent()).toMatch(says);
    await leave(visit);
  });
});
