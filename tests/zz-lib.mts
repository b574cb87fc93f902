// scratch, never committed
import { chromium } from "playwright";
import { launchOptions } from "./browser.ts";
export const sizes = { w1440:{width:1440,height:900}, wide:{width:1280,height:800}, tablet:{width:1024,height:768}, upright:{width:768,height:1024}, phone:{width:390,height:844} };
export async function open(opts: any = {}) {
  const browser = await chromium.launch(launchOptions);
  const context = await browser.newContext({ viewport: (sizes as any)[opts.size ?? "wide"], colorScheme: opts.theme ?? "light", reducedMotion: "reduce", hasTouch: opts.touch ?? false, acceptDownloads: true, locale: opts.locale ?? "en-GB", ...(opts.forced ? {forcedColors:"active"}:{}) });
  await context.addInitScript("Object.defineProperty(Navigator.prototype, 'serviceWorker', { get() {} })");
  const page = await context.newPage();
  const noise: string[] = [];
  page.on("console", (m) => { if (["error","warning"].includes(m.type())) noise.push(m.text()); });
  page.on("pageerror", (e) => noise.push("pageerror " + e.message));
  page.setDefaultTimeout(60000);
  await page.goto(opts.address ?? "http://127.0.0.1:4710/");
  return { page, context, browser, noise };
}
export const shot = (page: any, name: string) => page.screenshot({ path: `/tmp/hands/out/${name}.png` });
/** Visible words: text, and aria-labels, titles, placeholders. */
export const words = (page: any, scope = "body") => page.evaluate((scope: string) => {
  const root = document.querySelector(scope) as HTMLElement;
  for (const d of root.querySelectorAll("details")) (d as any).open = true;
  const hints = [...root.querySelectorAll("[aria-label],[title],[placeholder],[aria-description],[data-tip]")].filter((e:any)=>e.checkVisibility?.() ?? true).map((e) => ["aria-label","title","placeholder","aria-description"].map((a) => e.getAttribute(a)).filter(Boolean).join(" | "));
  return root.innerText + "\n--- hints\n" + [...new Set(hints)].join("\n");
}, scope);
