// A Chromium of the trial's own, with a profile that outlives it: it can be killed whole, at any moment, and started again.

import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium, type Page } from "playwright";
import { launchOptions } from "../browser.ts";
import { findBrowser } from "../chromium.mjs";
import { listen } from "../e2e/page.ts";

export interface Running {
  readonly page: Page;
  /** What the console said, and what was asked of elsewhere. */
  readonly noise: string[];
  /** SIGKILL to every process of it. */
  kill(): Promise<void>;
}

/** A folder for a profile, away when the trial ends. */
export function newProfile(): { readonly folder: string; remove(): void } {
  const folder = mkdtempSync(join(tmpdir(), "trial-"));
  return { folder, remove: () => rmSync(folder, { recursive: true, force: true, maxRetries: 5 }) };
}

/** Never what a trial fails by, however slow the machine, ms. */
const patience = 300_000;

/** @param prepare  runs in every page before the page's own scripts. */
export async function startBrowser(profile: string, address: string, prepare?: () => void): Promise<Running> {
  const portFile = join(profile, "DevToolsActivePort");
  rmSync(portFile, { force: true });
  const words = [
    "--headless=new",
    "--disable-crash-reporter",
    "--remote-debugging-port=0",
    `--user-data-dir=${profile}`,
  ];
  const child = spawn(findBrowser() ?? chromium.executablePath(), [...launchOptions.args, ...words, "about:blank"], {
    detached: true, // a group of its own, which is killed as one
    stdio: "ignore",
  });
  const ended = new Promise<void>((resolve) => child.once("exit", () => resolve()));
  const browser = await chromium.connectOverCDP(`http://127.0.0.1:${await portIn(portFile)}`, { timeout: patience });
  const context = browser.contexts()[0]!;
  context.setDefaultTimeout(patience);
  await context.addInitScript("globalThis.__name = (work) => work"); // the runner names functions by it
  await context.addInitScript(() =>
    Object.defineProperty(Navigator.prototype, "serviceWorker", { get: () => undefined }),
  );
  if (prepare) await context.addInitScript(prepare);
  const page = context.pages()[0] ?? (await context.newPage());
  await page.setViewportSize({ width: 1280, height: 800 });
  return {
    page,
    noise: listen(page, new URL(address).origin),
    async kill() {
      killGroup(child);
      await ended;
      await browser.close().catch(() => {});
    },
  };
}

function killGroup({ pid }: ChildProcess): void {
  try {
    process.kill(-pid!, "SIGKILL");
  } catch {
    // gone already
  }
}

async function portIn(file: string): Promise<string> {
  const until = Date.now() + patience;
  while (Date.now() < until) {
    const port = textOf(file).split("\n")[0];
    if (port) return port;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  throw new Error("Chromium did not start.");
}

function textOf(file: string): string {
  try {
    return readFileSync(file, "utf8");
  } catch {
    return "";
  }
}
