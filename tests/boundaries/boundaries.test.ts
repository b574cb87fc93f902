// The layers import downward only. Checked on the real tree, and on planted faults, so that the check itself is checked.

import { execFileSync, spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { root } from "../../src/command/setup.mjs";

interface Cruise {
  modules: { source: string }[];
  summary: { violations: { rule: { name: string }; from: string }[] };
}

function cruise(folder: string): Cruise {
  const { stdout, stderr } = spawnSync(
    process.execPath,
    [
      join(root, "node_modules/dependency-cruiser/bin/dependency-cruise.mjs"),
      "--output-type",
      "json",
      "src",
      "workers",
    ],
    { cwd: folder, encoding: "utf8", maxBuffer: 1 << 28 },
  );
  if (!stdout) throw new Error(stderr);
  return JSON.parse(stdout) as Cruise;
}

describe("boundaries", () => {
  const real = cruise(root);

  test("hold in the whole tree", () => {
    expect(real.summary.violations.map((v) => `${v.rule.name}: ${v.from}`)).toEqual([]);
  });

  test("were checked on no fewer modules than git lists", () => {
    const listed = execFileSync("git", ["ls-files", "src", "workers"], { cwd: root, encoding: "utf8" })
      .split("\n")
      .filter((path) => /\.(ts|tsx|mjs)$/.test(path) && !path.endsWith(".d.mts"));
    const seen = new Set(real.modules.map((m) => m.source));
    expect(listed.filter((path) => !seen.has(path))).toEqual([]);
    expect(listed.length).toBeGreaterThan(5);
  });

  const folder = mkdtempSync(join(tmpdir(), "planted-"));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  for (const name of ["src", "workers", "tsconfig.json", ".dependency-cruiser.mjs", "package.json"]) {
    cpSync(join(root, name), join(folder, name), { recursive: true });
  }
  symlinkSync(join(root, "node_modules"), join(folder, "node_modules"));
  const plant = (path: string, text: string) => {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  };
  plant(
    "src/signal/planted-up.ts",
    `import type { Channel } from "../capture/model/capture.ts";\nexport type P = Channel;\n`,
  );
  plant("src/exhaust/planted-package.ts", `import uPlot from "uplot";\nexport const p = uPlot;\n`);
  plant("src/capture/planted-node.ts", `import { readFileSync } from "node:fs";\nexport const p = readFileSync;\n`);
  plant("workers/planted-page.ts", `import type { Job } from "../src/job/record/job.ts";\nexport type P = Job;\n`);
  plant("src/job/planted-a.ts", `import { b } from "./planted-b.ts";\nexport const a = (): unknown => b;\n`);
  plant("src/job/planted-b.ts", `import { a } from "./planted-a.ts";\nexport const b = (): unknown => a;\n`);
  const planted = cruise(folder).summary.violations.map((v) => `${v.rule.name}: ${v.from}`);

  test.each([
    "signal-looks-down-only: src/signal/planted-up.ts",
    "uplot-has-one-home: src/exhaust/planted-package.ts",
    "pure-layers-see-no-node: src/capture/planted-node.ts",
    "workers-see-no-page: workers/planted-page.ts",
    "no-cycles: src/job/planted-a.ts",
  ])("catch a planted fault, %s", (fault) => {
    expect(planted).toContain(fault);
  });
});
