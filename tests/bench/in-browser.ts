// The bench page, built as the product is, in a Chromium of its own.

import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type BrowserContext, chromium, type Page } from "playwright";
import { build, preview } from "vite";
import { root } from "../../src/command/setup.mjs";
import { launchOptions } from "../browser.ts";
import type { BenchPage } from "./page/bench-page.ts";

export interface InBrowser {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly address: string;
  /** Chooses a file of this machine. */
  choose(path: string): Promise<void>;
  /** Bytes in memory of the largest process that draws a page: the highest ever. */
  peakMemory(): number;
  /** The same now. */
  memory(): number;
  close(): Promise<void>;
}

/** @param folder of a built page; without it the bench page is built. */
export async function inBrowser(folder?: string): Promise<InBrowser> {
  const scratch = mkdtempSync(join(tmpdir(), "bench-"));
  const outDir = folder ?? join(scratch, "page");
  const pageRoot = join(root, "tests/bench/page");
  if (!folder) {
    await build({
      root: pageRoot,
      configFile: false,
      logLevel: "error",
      worker: { format: "es" },
      build: { outDir, target: "es2022" },
    });
  }
  const server = await preview({
    root: pageRoot,
    configFile: false,
    logLevel: "error",
    build: { outDir },
    preview: { host: "127.0.0.1", port: 0 },
  });
  const address = server.resolvedUrls!.local[0]!;
  const profile = join(scratch, "profile");
  const context = await chromium.launchPersistentContext(profile, {
    ...launchOptions,
    viewport: { width: 1500, height: 900 },
  });
  const page = context.pages()[0] ?? (await context.newPage());
  await page.goto(address);
  return {
    page,
    context,
    address,
    choose: (path) => page.locator("input[type=file]").first().setInputFiles(path),
    peakMemory: () => Math.max(0, ...renderers(profile).map((pid) => bytesOf(pid, "VmHWM"))),
    memory: () => Math.max(0, ...renderers(profile).map((pid) => bytesOf(pid, "VmRSS"))),
    async close() {
      await context.close();
      await server.close();
      rmSync(scratch, { recursive: true, force: true });
    },
  };
}

/** Runs a function of the bench page. */
export function ask<K extends keyof BenchPage>(
  page: Page,
  name: K,
  ...given: Parameters<BenchPage[K]>
): Promise<Awaited<ReturnType<BenchPage[K]>>> {
  const call = ([called, list]: [string, unknown[]]) =>
    (globalThis as unknown as { bench: Record<string, (...list: unknown[]) => unknown> }).bench[called]!(...list);
  return page.evaluate(call, [name, given] as [string, unknown[]]) as Promise<Awaited<ReturnType<BenchPage[K]>>>;
}

/** Processes that draw pages, below the browser of this profile. */
function renderers(profile: string): number[] {
  const pids = readdirSync("/proc")
    .filter((name) => /^\d+$/.test(name))
    .map(Number);
  const browsers = new Set(pids.filter((pid) => commandOf(pid).includes(profile)));
  const isBelow = (pid: number): boolean => pid > 1 && (browsers.has(pid) || isBelow(parentOf(pid)));
  return pids.filter((pid) => commandOf(pid).includes("--type=renderer") && isBelow(pid));
}

const read = (path: string): string => {
  try {
    return readFileSync(path, "utf8");
  } catch {
    return ""; // it has ended meanwhile
  }
};
const commandOf = (pid: number): string => read(`/proc/${pid}/cmdline`);
const parentOf = (pid: number): number => Number(/^PPid:\s+(\d+)/m.exec(read(`/proc/${pid}/status`))?.[1] ?? 0);
const bytesOf = (pid: number, what: "VmHWM" | "VmRSS"): number =>
  Number(new RegExp(`^${what}:\\s+(\\d+)`, "m").exec(read(`/proc/${pid}/status`))?.[1] ?? 0) * 1024;
