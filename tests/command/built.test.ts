// A command starts from a bundle of its sources, and from a new one once they differ.

import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { root } from "../../src/command/setup.mjs";

const copy = mkdtempSync(join(tmpdir(), "built-"));
afterAll(() => rmSync(copy, { recursive: true, force: true }));

function help(): string {
  const { status, stdout, stderr } = spawnSync("node", [join(copy, "src/command/built.mjs"), "measure", "--help"], {
    encoding: "utf8",
  });
  expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
  return stdout;
}

test("what is changed in the sources shows with the next call", { timeout: 120_000 }, () => {
  for (const place of ["src", "package.json", "package-lock.json"])
    cpSync(join(root, place), join(copy, place), { recursive: true });
  symlinkSync(join(root, "node_modules"), join(copy, "node_modules"));
  expect(help()).toContain("Measures a recording");
  expect(help()).toContain("Measures a recording");
  const words = join(copy, "src/command/arguments.ts");
  writeFileSync(words, readFileSync(words, "utf8").replaceAll("Measures a recording", "Weighs a recording"));
  expect(help()).toContain("Weighs a recording");
});
