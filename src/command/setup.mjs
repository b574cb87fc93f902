// What a fresh clone lacks, installed: the packages, and for the tests a Chromium. Plain JavaScript, as it runs before
// any package is there.

import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("../../", import.meta.url));

const [major = 0, minor = 0] = process.versions.node.split(".").map(Number);

/** Installs the locked packages when they are missing or older than the lock file. Exits with one line when it cannot. */
export function ensurePackages() {
  if (major < 20 || (major === 20 && minor < 19)) stop(`Node 20.19 or newer is needed, this is ${process.version}.`);
  const lock = readFileSync(`${root}package-lock.json`, "utf8");
  const stamp = `${root}node_modules/.installed-from`;
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === lock) return;
  const npm = spawnSync("npm", ["ci", "--no-audit", "--no-fund", "--loglevel=error"], {
    cwd: root,
    stdio: ["ignore", 2, 2],
  });
  if (npm.status !== 0) stop("The packages could not be installed: npm ci failed. Is the package registry in reach?");
  writeFileSync(stamp, lock);
}

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
  return findBrowser() ?? stop("Chromium is needed for the tests: install it, or name it in CHROMIUM_PATH.");
}

/** @returns {never} */
function stop(line) {
  console.error(line);
  process.exit(1);
}
