// Firefox, by WebDriver BiDi (W3C), spoken by puppeteer-core.

import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import puppeteer from "puppeteer-core";
import type { Driven, Engine } from "./engine.ts";

const places = [process.env.FIREFOX_PATH, "/usr/bin/firefox-esr", "/usr/bin/firefox"];
const find = () => places.find((path) => path && existsSync(path));

export const firefox: Engine = {
  name: "Firefox",
  keeps: true,
  missing: () => (find() ? null : "no Firefox is installed (Debian: firefox-esr), or named in FIREFOX_PATH"),
  start: startFirefox,
};

async function startFirefox(): Promise<Driven> {
  const folder = mkdtempSync(join(tmpdir(), "engine-"));
  const browser = await puppeteer.launch({
    browser: "firefox",
    executablePath: find()!,
    headless: true,
    userDataDir: join(folder, "profile"),
    protocolTimeout: 300_000,
    timeout: 120_000,
    extraPrefsFirefox: {
      "browser.download.folderList": 2,
      "browser.download.dir": folder,
      "browser.download.useDownloadDir": true,
      "browser.download.always_ask_before_handling_new_types": false,
    },
  });
  const [page = await browser.newPage()] = await browser.pages();
  await page.setViewport({ width: 1280, height: 800 });
  return {
    version: (await browser.version()).replace("/", " "),
    downloads: folder,
    goto: async (address) => void (await page.goto(address)),
    reload: async () => void (await page.reload()),
    run: (work, ...words) =>
      page.evaluate(`(globalThis.__name ??= (work) => work, (${work})(...${JSON.stringify(words)}))`) as never,
    press: ({ x, y }) => page.mouse.click(x, y),
    async drag(from, to) {
      await page.mouse.move(from.x, from.y);
      await page.mouse.down();
      await page.mouse.move(to.x, to.y, { steps: 5 });
      await page.mouse.up();
    },
    type: (text) => page.keyboard.type(text),
    shot: async () => Buffer.from(await page.screenshot()),
    async stop() {
      await browser.close();
      rmSync(folder, { recursive: true, force: true, maxRetries: 20, retryDelay: 200 });
    },
  };
}
