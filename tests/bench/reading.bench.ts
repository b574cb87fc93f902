// Clean text and WAV opened in Chromium: against Papa Parse, against the bytes alone, and in memory.

import { type Bench, median, megabytes, ms, type Row, rate } from "./bench.ts";
import { columnBytes, largeFile } from "./files.ts";
import { ask, inBrowser } from "./in-browser.ts";

async function text(): Promise<Row[]> {
  const file = largeFile("csv", 4_600_000);
  const browser = await inBrowser();
  const { page } = browser;
  await browser.choose(file.path);
  const before = browser.peakMemory();
  const first = await ask(page, "open");
  const peak = browser.peakMemory() - before;
  const columns = columnBytes(file.rows);
  const papa = await ask(page, "papa");
  const again = [first.full];
  for (let run = 0; run < 2; run++) {
    await ask(page, "restart");
    again.push((await ask(page, "open")).full);
  }
  const floors: number[] = [];
  for (const [touched, threads] of [
    [0, 1],
    [columns, 1],
    [columns, 2],
  ] as const) {
    floors.push(Math.min(await ask(page, "floor", touched, threads), await ask(page, "floor", touched, threads)));
  }
  await browser.close();
  const full = median(again);
  const [bytes, touched, byTwo] = floors as [number, number, number];
  return [
    {
      what: `clean CSV, ${megabytes(file.size)}, Chromium worker, until every sample can be seen`,
      budget: ">= 10x Papa Parse",
      figure: `${ms(full)}, ${rate(file.size, full)} (answer with SHA-256: ${ms(first.all)})`,
      peer: `Papa Parse ${ms(papa)}, ${rate(file.size, papa)}`,
      ratio: `${(papa / full).toFixed(1)}x`,
      holds: papa / full >= 10,
    },
    {
      what: "the same, against the least it can cost",
      budget: "<= 1.6x the bytes and one touch of the columns, two threads",
      figure: ms(full),
      peer: `bytes alone ${ms(bytes)}, with one touch ${ms(touched)}, by two threads ${ms(byTwo)}`,
      ratio: `${(full / byTwo).toFixed(1)}x`,
      holds: full / byTwo <= 1.6,
    },
    {
      what: "peak memory of that load, above the empty page",
      budget: "<= 1.5x the columns + 100 MB",
      figure: megabytes(peak),
      peer: `columns ${megabytes(columns)}`,
      ratio: `${((peak - 100e6) / columns).toFixed(2)}x + 100 MB`,
      holds: peak <= 1.5 * columns + 100e6,
    },
  ];
}

async function wave(): Promise<Row[]> {
  const file = largeFile("wav", 12_500_000);
  const browser = await inBrowser();
  await browser.choose(file.path);
  const bytes = await ask(browser.page, "bytes");
  const { full, all } = await ask(browser.page, "open");
  const bytesAgain = await ask(browser.page, "bytes");
  await browser.close();
  const alone = Math.min(bytes, bytesAgain);
  return [
    {
      what: `WAV ${megabytes(file.size)} to the first full picture`,
      budget: "<= 3x the bytes alone",
      figure: `${ms(full)} (answer with SHA-256: ${ms(all)})`,
      peer: `bytes alone ${ms(alone)}`,
      ratio: `${(full / alone).toFixed(1)}x`,
      holds: full / alone <= 3,
    },
  ];
}

async function early(): Promise<Row[]> {
  const file = largeFile("csv", 18_000_000);
  const browser = await inBrowser();
  await browser.choose(file.path);
  const { first, full } = await ask(browser.page, "open");
  await browser.close();
  return [
    {
      what: `first picture of a ${megabytes(file.size)} text`,
      budget: "<= 10 % of the full load and <= 0.5 s",
      figure: ms(first),
      peer: `full load ${ms(full)}`,
      ratio: `${((100 * first) / full).toFixed(1)} %`,
      holds: first <= 500 && first <= full / 10,
    },
  ];
}

export const bench: Bench = {
  name: "reading",
  run: async () => [...(await text()), ...(await wave()), ...(await early())],
};
