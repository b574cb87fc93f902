// What `npm start` answers without starting anything.

import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { expect, test } from "vitest";
import { root } from "../../src/command/setup.mjs";

const start = (...words: string[]) =>
  spawnSync("node", [join(root, "src/command/start.mjs"), ...words], { encoding: "utf8" });

test.each(["--help", "-h"])("%s prints how it is called, and no server is started", (word) => {
  const { status, stdout, stderr } = start(word);
  expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
  expect(stdout).toMatch(/npm start.*loopback.*PORT=/);
  expect(stdout).not.toContain("Tracewright is at");
});

test("a word that means nothing is not passed over", () => {
  const { status, stdout, stderr } = start("--port", "8080");
  expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
  expect(stderr).toContain("--port 8080");
});
