// The packed samples reach the page as they lie on disk: no server and no browser unpacks them on the way.

import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { sampleTraces } from "../../sample-traces/index.ts";
import { root } from "../../src/command/setup.mjs";
import { useBrowser } from "./page.ts";

const { visit } = useBrowser();
const folder = new URL("../../sample-traces/", import.meta.url);

test("every packed sample arrives in the page byte for byte", async () => {
  const { page, noise, close } = await visit();
  const assets = readdirSync(`${root}dist/assets`);
  for (const { file } of sampleTraces.filter((trace) => trace.file.endsWith(".gz"))) {
    const asset = assets.find((name) => name.startsWith(file.replace(/[.]gz$/, "")));
    expect(asset, `${file} is in the build`).toBeDefined();
    const got = await page.evaluate(async (path) => {
      const bytes = new Uint8Array(await (await fetch(path)).arrayBuffer());
      return { length: bytes.length, head: [...bytes.subarray(0, 64)], tail: [...bytes.subarray(-64)] };
    }, `assets/${asset}`);
    const want = readFileSync(new URL(file, folder));
    expect(got).toEqual({ length: want.length, head: [...want.subarray(0, 64)], tail: [...want.subarray(-64)] });
  }
  expect(noise).toEqual([]);
  await close();
});
