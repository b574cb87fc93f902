// npm run shots: pictures of the main states, light and dark, wide, tablet and phone, into tests/shots (not kept in git).
// The bench at a lift-off, light and wide, is the picture that the README shows, `src/pictures/bench.png`.

import { copyFileSync, mkdirSync } from "node:fs";
import { join } from "node:path";
import { chromium } from "playwright";
import { build, preview } from "vite";
import { root } from "../../src/command/setup.mjs";
import { launchOptions } from "../browser.ts";
import { openPage, sizes } from "./page.ts";
import { states, wayTo } from "./states.ts";

const wanted = process.argv.slice(2);
const folder = join(root, "tests/shots");
mkdirSync(folder, { recursive: true });
await build({ root, logLevel: "error" });
const server = await preview({ root, preview: { host: "127.0.0.1", port: 0 }, logLevel: "error" });
const browser = await chromium.launch(launchOptions);
for (const state of states) {
  const { name } = state;
  if (wanted.length > 0 && !wanted.includes(name)) continue;
  const { page, noise, close } = await openPage(browser, server.resolvedUrls!.local[0]!);
  for (const { reach } of wayTo(state)) await reach(page);
  for (const [size, viewport] of Object.entries(sizes)) {
    await page.setViewportSize(viewport);
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      await page.waitForTimeout(600);
      const path = join(folder, `${name}-${colorScheme}-${size}.png`);
      await page.screenshot({ path });
      console.log(path);
      if (name === "lift-off" && colorScheme === "light" && size === "wide") {
        copyFileSync(path, join(root, "src/pictures/bench.png"));
      }
    }
  }
  if (noise.length > 0) console.log(...noise);
  await close();
}
await browser.close();
await server.close();
