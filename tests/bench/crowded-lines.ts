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
  for (const [thickness, isArea] of [
    [1.4, false],
    [2.4, false],
    [1.4, true],
    [2.4, true],
  ]) {
    const call = `import("/tests/bench/crowded-lines.page.ts").then((page) => page.timeLines(820, 300, ${thickness}, ${isArea}))`;
    const taken = await page.evaluate<Record<"stroke" | "fill" | "bars", number>>(call);
    const [stroke, fill, bars] = [taken.stroke, taken.fill, taken.bars].map((one) => `${one.toFixed(2)} ms`);
    console.log(
      `${thickness} px line, 820 columns${isArea ? " of whole areas" : ""}: stroked ${stroke}, outline filled ${fill}, bars where it covers areas ${bars}`,
    );
  }
} finally {
  await browser.close();
  await server.close();
}
