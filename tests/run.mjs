// npm test: installs what is missing, runs every check, and closes with the line "N passed, N failed".

import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { ensurePackages, root } from "../src/command/setup.mjs";
import { ensureBrowser } from "./chromium.mjs";

ensurePackages();
process.env.CHROMIUM_PATH = ensureBrowser();

let passed = 0;
let failed = 0;

/** A static check counts as one. */
function check(name, command, args) {
  console.log(`\n== ${name}`);
  const { status } = spawnSync(command, args, { cwd: root, stdio: "inherit", shell: false });
  if (status === 0) passed++;
  else {
    failed++;
    console.error(`${name}: failed`);
  }
}

const bin = (name) => join(root, "node_modules", ".bin", name);
// The compiler of TypeScript's own port takes a third of the processor time; the one in JavaScript parses for tests/boundaries.
for (const [name, project] of [
  ["types", "tsconfig.json"],
  ["types of the pure layers", "tsconfig.pure.json"],
  ["types of the readers", "tsconfig.capture.json"],
])
  check(name, bin("tsgo"), ["--incremental", "false", "-p", project]);
check("lint and format", bin("biome"), ["check", "--error-on-warnings", "."]);
check("build", bin("vite"), ["build", "--logLevel", "warn"]);

console.log("\n== tests");
const folder = mkdtempSync(join(tmpdir(), "checks-"));
const report = join(folder, "report.json");
const run = spawnSync(
  bin("vitest"),
  ["run", "--reporter=./tests/progress.ts", "--reporter=json", `--outputFile.json=${report}`, ...process.argv.slice(2)],
  { cwd: root, stdio: "inherit" },
);
try {
  const { numPassedTests, numFailedTests, numFailedTestSuites } = JSON.parse(readFileSync(report, "utf8"));
  passed += numPassedTests;
  failed += Math.max(numFailedTests, run.status === 0 ? 0 : Math.max(1, numFailedTestSuites > 0 ? 1 : 0));
} catch {
  console.error("The test run left no report.");
  failed++;
}
rmSync(folder, { recursive: true, force: true });

console.log(`\n${passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
