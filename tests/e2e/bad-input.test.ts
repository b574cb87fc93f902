// Whatever falls on the bench, it gives a clear problem or a remark, and nothing that was there is lost.

import { deflateSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { leave, useBrowser, type Visit } from "./page.ts";
import { dropFiles, liftOffs, openFile, samplePath } from "./steps.ts";

const browser = useBrowser();
const text = (content: string) => Buffer.from(content, "utf8");
const rows = (n: number, cell: (i: number) => string) => Array.from({ length: n }, (_, i) => cell(i)).join("\n");
const picture = Buffer.concat([Buffer.from("\x89PNG\r\n\x1a\n", "latin1"), deflateSync(Buffer.alloc(500))]);

/** A neutral name: no expectation may be met by what the file is called. */
const name = "recording.csv";
const header = "time,front O2 (V),rear O2 (V)\n";

/** What the file is, its bytes, and what its problem must say. */
const refused: [string, Buffer, RegExp][] = [
  ["an empty file", text(""), /is empty: it holds no bytes/],
  ["a picture", picture, /is a PNG picture, not a recording/],
  ["prose", text(rows(20, () => "the quick brown fox jumps over the lazy dog")), /holds no column of numbers/],
  ["a single row", text("time,front,rear\n0,0.1,0.2\n"), /holds only one row of numbers/],
  ["a header alone", text("time,front,rear\n"), /has a header but no rows of numbers/],
];

/** What the file is, its bytes, and the remark that must stand beside it, with the place of the first such cell or row. */
const remarked: [string, Buffer, RegExp][] = [
  [
    "a short row",
    text(`${header}${rows(60, (i) => (i === 30 ? `${i},0.4` : `${i},0.4,0.5`))}`),
    /rows with fewer cells than columns.*\(1\).*line 32/,
  ],
  [
    "words among the numbers",
    text(`${header}${rows(60, (i) => (i % 9 === 0 ? `${i},NaN,oops` : `${i},0.4,0.5`))}`),
    /cells that are no numbers.*rear O2 \(7\).*line 2/,
  ],
  [
    "a row that runs back",
    text(`${header}${rows(60, (i) => `${i === 30 ? 12.5 : i},0.4,0.5`)}`),
    /time runs backwards.*\(1\).*row 31/,
  ],
  [
    "a stamp twice",
    text(`${header}${rows(60, (i) => `${i === 30 ? 29 : i},0.4,0.5`)}`),
    /repeat the stamp before.*\(1\).*row 31/,
  ],
];

describe("with the sample open", () => {
  let visit: Visit;
  beforeAll(async () => {
    visit = await browser.visit();
    await openFile(visit.page, samplePath("good-catalyst-polled.csv"));
    await liftOffs(visit.page, 3);
  });
  afterAll(() => leave(visit));

  test.each(refused)("%s gives a problem and leaves the bench as it was", async (_, bytes, says) => {
    const { page } = visit;
    await dropFiles(page, [{ name, bytes }]);
    const problem = page.getByRole("alert", { name: "Problem" });
    await problem.waitFor();
    expect(await problem.textContent()).toMatch(says);
    // What happened, where, and what would help: a paragraph each.
    expect(await problem.getByRole("paragraph").count()).toBe(3);
    expect((await liftOffs(page, 3)).length).toBe(3);
    await problem.getByRole("button", { name: "Dismiss" }).click();
    await expect.poll(() => problem.count()).toBe(0);
  });
});

describe("one after the other, from an empty bench", () => {
  let visit: Visit;
  let opened = 0;
  beforeAll(async () => {
    visit = await browser.visit();
  });
  afterAll(() => leave(visit));

  test.each(remarked)("%s opens with a remark that says what was left out", async (_, buffer, says) => {
    const { page } = visit;
    await openFile(page, { name: `${++opened}.csv`, mimeType: "text/csv", buffer });
    await page.getByRole("tab", { name: "Channels" }).click();
    const remarks = page.getByRole("region", { name: "Recording", exact: true }).getByRole("listitem");
    await expect
      .poll(async () => (await remarks.allTextContents()).filter((remark) => says.test(remark)))
      .toHaveLength(1);
  });
});
