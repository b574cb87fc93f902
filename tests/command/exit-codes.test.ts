// Exit 3: a fault of the program, planted where every command passes. One line, no stack trace, nothing on standard output.

import { spawnSync } from "node:child_process";
import { closeSync, existsSync, mkdtempSync, openSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { root } from "../../src/command/setup.mjs";

/** Short: what they say of it is not looked at. */
const folder = mkdtempSync(join(tmpdir(), "faults-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const log = join(folder, "log.csv");
const rows = Array.from({ length: 200 }, (_, i) => `${i / 10},${i % 10 < 5 ? 0.9 : 0.1},0.7`);
writeFileSync(log, ["Time (s),Front O2 (V),Rear O2 (V)", ...rows].join("\n"));
const files = { measure: [log], compare: [log, log] } as const;

/** The command as it is called, with a module loaded before it. */
function run(command: keyof typeof files, before: string, stdout: "pipe" | number = "pipe") {
  const hook = `data:text/javascript,${encodeURIComponent(before)}`;
  const words = ["--import", hook, join(root, "src/command/built.mjs"), command, ...files[command]];
  return spawnSync(process.execPath, words, { cwd: root, encoding: "utf8", stdio: ["ignore", stdout, "pipe"] });
}

describe.each(["measure", "compare"] as const)("%s", (command) => {
  test("answers a fault of its own with exit 3 and one line", () => {
    const planted = 'process.stdout.write = () => { throw new RangeError("planted\\nfault"); };';
    const { status, stdout, stderr } = run(command, planted);
    expect(status).toBe(3);
    expect(stdout).toBe("");
    expect(stderr.trimEnd().split("\n")).toHaveLength(1);
    expect(stderr).toContain("a fault of the program, not of the file: RangeError: planted fault");
    expect(stderr).not.toMatch(/ at .*:\d+/);
  });

  test.runIf(existsSync("/dev/full"))("says so in one line where the answer cannot be written", () => {
    const full = openSync("/dev/full", "w");
    const { status, stderr } = run(command, "", full);
    closeSync(full);
    expect(status).toBe(3);
    expect(stderr.trimEnd().split("\n")).toHaveLength(1);
    expect(stderr).toMatch(/could not be written.*no space/i);
  });
});
