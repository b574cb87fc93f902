// What a fresh clone lacks, installed: the packages. Plain JavaScript, as it runs before any package is there.

import { spawnSync } from "node:child_process";
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

/** @returns {never} */
function stop(line) {
  console.error(line);
  process.exit(1);
}
