// The Chromium that tests of the page run in: found, or installed. Plain JavaScript, as it runs before any package is there.

import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";

/** Path of a Chromium, or null. */
export function findBrowser() {
  const places = [
    process.env.CHROMIUM_PATH,
    "/usr/bin/chromium",
    "/usr/bin/chromium-browser",
    "/usr/bin/google-chrome",
  ];
  return places.find((path) => path && existsSync(path)) ?? null;
}

/** Path of a Chromium, installed from the system's packages where that can be done. Exits with one line when it cannot. */
export function ensureBrowser() {
  const found = findBrowser();
  if (found) return found;
  if (process.getuid?.() === 0 && existsSync("/usr/bin/apt-get")) {
    try {
      execFileSync("apt-get", ["update", "-qq"], { stdio: ["ignore", 2, 2] });
      execFileSync("apt-get", ["install", "-y", "-qq", "chromium"], { stdio: ["ignore", 2, 2] });
    } catch {
      // Said below, in one line.
    }
  }
  const installed = findBrowser();
  if (installed) return installed;
  console.error("Chromium is needed for the tests: install it, or name it in CHROMIUM_PATH.");
  process.exit(1);
}
