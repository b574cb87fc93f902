// How much sooner a crowded line is on the canvas when its outline is filled instead of its segments stroked.
// Run: npx tsx tests/bench/crowded-lines.ts

import { chromium } from "playwright";
import { createServer } from "vite";
import { launchOptions } from "../browser.ts";

const server = await createServer({ logLevel: "error", server: { port: 0, host: "127.0.0.1" } });
await server.listen();
const browser = await chromium.launch(launchOptions);
try {
  const page = await browser.newPage();
  await page.goto(server.resolvedUrls!.local[0]!);
  for (const thickness of [1.4, 2.4]) {
    const call = `import("/tests/bench/crowded-lines.page.ts").then((page) => page.timeLines(820, 300, ${thickness}))`;
    const { stroke, fill } = await page.evaluate<{ stroke: number; fill: number }>(call);
    const [was, is] = [stroke.toFixed(2), fill.toFixed(2)];
    console.log(
      `${thickness} px line, 820 columns: stroke ${was} ms, fill ${is} ms, ratio ${(stroke / fill).toFixed(1)}`,
    );
  }
} finally {
  await browser.close();
  await server.close();
}
