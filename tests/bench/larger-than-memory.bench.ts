// Files whose columns are more than the worker holds in memory (1.5 GiB): opened in Chromium, and reopened after a reload.

import { type Bench, megabytes, ms, percentile, type Row } from "./bench.ts";
import { columnBytes, largeFile } from "./files.ts";
import { ask, type InBrowser, inBrowser } from "./in-browser.ts";

/** Memory may hold a part, the bounds of blocks (3 %) and a constant. */
const share = 0.05;
const constant = 200e6;

/** Two threads, the correlation over a million points (200 MB), parts read and not yet collected. */
const mostMeasuring = 500e6;

async function opened(kind: "csv" | "wav", rows: number): Promise<Row[]> {
  const file = largeFile(kind, rows);
  const browser = await inBrowser();
  const { page } = browser;
  await browser.choose(file.path);
  const before = browser.peakMemory();
  const { first, all, id } = await ask(page, "open");
  const peak = browser.peakMemory() - before;
  const problem = await ask(page, "kept");
  if (problem) throw new Error(problem.what);
  await page.reload();
  const again = await ask(page, "reopen", id);
  const readings = kind === "csv" ? [await measured(browser, before, rows)] : [];
  await browser.close();
  const columns = columnBytes(rows);
  const what = `${kind === "csv" ? "clean CSV" : "WAV"}, ${megabytes(file.size)}`;
  return [
    {
      what: `${what}: peak memory above the empty page`,
      budget: "<= 5 % of the columns + 200 MB",
      figure: megabytes(peak),
      peer: `columns ${megabytes(columns)}`,
      ratio: `${((100 * peak) / columns).toFixed(1)} %`,
      holds: peak <= share * columns + constant,
    },
    {
      what: `${what}: first picture, and after a reload`,
      budget: "<= 0.5 s, <= 0.7 s",
      figure: `${ms(first)}, ${ms(again)}`,
      peer: `until it is open ${(all / 1000).toFixed(1)} s`,
      ratio: `${((100 * first) / all).toFixed(1)} %`,
      holds: first <= 500 && again <= 700,
    },
    ...readings,
  ];
}

/** All readings of front and rear over the whole, read out of storage part by part. */
async function measured(browser: InBrowser, before: number, rows: number): Promise<Row> {
  const { took, deltas, told } = await ask(browser.page, "measure");
  const [peak, p99] = [browser.peakMemory() - before, percentile(deltas, 0.99)];
  const columns = 2 * 4 * rows;
  return {
    what: `all bench readings over all of it, ${rows / 1e6} M samples x 2, out of storage: peak memory, frames of the page`,
    budget: "<= 500 MB whatever the size, p99 <= 33 ms",
    figure: `${megabytes(peak)}, p99 ${ms(p99)} (${(took / 1000).toFixed(0)} s, progress told ${told} times)`,
    peer: `columns ${megabytes(columns)}`,
    ratio: `${((100 * peak) / columns).toFixed(1)} %`,
    holds: peak <= mostMeasuring && p99 <= 33.4 && told > 10,
  };
}

export const bench: Bench = {
  name: "larger-than-memory",
  run: async () => [...(await opened("csv", 105_000_000)), ...(await opened("wav", 200_000_000))],
};
