// The layers import downward only. Checked on a copy of the tree with planted faults, so that the check itself is checked.

import { execFileSync, spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { root } from "../../src/command/setup.mjs";
import { readsProse } from "./prose.ts";
import { circles, halfway, type Module, roomsOf } from "./rooms.ts";

interface Cruise {
  modules: Module[];
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
  const folder = mkdtempSync(join(tmpdir(), "planted-"));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  for (const name of ["src", "workers", "sample-traces", "tsconfig.json", ".dependency-cruiser.mjs", "package.json"]) {
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
  plant("src/job/record/planted-down.ts", `export { type P } from "../planted-room/planted-p.ts";\n`);
  plant("src/job/planted-room/planted-p.ts", `import type { Job } from "../record/job.ts";\nexport type P = Job;\n`);
  plant("src/job/planted-root.ts", `import type { Job } from "./record/job.ts";\nexport type R = Job;\n`);
  plant("src/job/storage/planted-up.ts", `export { type R } from "../planted-root.ts";\n`);
  // One look at a copy of the tree with the faults planted in it; without them it is the real tree.
  const withFaults = cruise(folder);
  const isPlanted = (path: string) => path.includes("/planted-");
  const real = {
    modules: withFaults.modules.filter(({ source }) => !isPlanted(source)),
    violations: withFaults.summary.violations.filter(({ from }) => !isPlanted(from)),
  };

  test("hold in the whole tree", () => {
    expect(real.violations.map((v) => `${v.rule.name}: ${v.from}`)).toEqual([]);
  });

  test("were checked on no fewer modules than git lists", () => {
    const listed = execFileSync("git", ["ls-files", "src", "workers"], { cwd: root, encoding: "utf8" })
      .split("\n")
      .filter((path) => /\.(ts|tsx|mjs)$/.test(path) && !path.endsWith(".d.mts"));
    const seen = new Set(real.modules.map((m) => m.source));
    expect(listed.filter((path) => !seen.has(path))).toEqual([]);
    expect(listed.length).toBeGreaterThan(5);
  });

  const rooms = roomsOf(real.modules);

  test("hold between the rooms of each layer: no way of imports leads back to a room", () => {
    expect(rooms.length).toBeGreaterThan(8);
    expect(rooms.flatMap(circles)).toEqual([]);
  });

  test("hold for the files at the root of each layer: entry or ground", () => {
    expect(rooms.flatMap(halfway)).toEqual([]);
  });

  test("each room and layer has a README of at most 40 lines", () => {
    const folders = new Set(real.modules.map(({ source }) => dirname(source)));
    const wrong = [...folders].filter((path) => {
      if (!/^(src\/|workers)/.test(path)) return false;
      const readme = join(root, path, "README.md");
      return !existsSync(readme) || readFileSync(readme, "utf8").trimEnd().split("\n").length > 40;
    });
    expect(wrong).toEqual([]);
  });

  /** Texts are cut and joined in one place, which decides nothing by them. */
  const typography = "src/exhaust/terms/words.ts";

  test("hold between codes and words: no code reads the program's own sentences", () => {
    const product = real.modules.map(({ source }) => source).filter((path) => /^(src|workers)\/.*[.]tsx?$/.test(path));
    const others = product.filter((path) => path !== typography);
    expect(others.flatMap((path) => readsProse(path, readFileSync(join(root, path), "utf8")))).toEqual([]);
  });

  test.each([
    'const isSlow = stretch.because.startsWith("Sampled");',
    "const isSwap = /swapped/.test(warning.text);",
    "const way = ways.find(({ label, id }) => shift.says === label);",
    'const asks = problem.what.includes("neither text");',
    "const own = lanes.find((lane) => lane.title === name);",
    'switch (finding.statement) { case "": }',
    "const others = steps.filter((step) => !toRecord.test(step));",
    'const asks = finding.next.includes("Record idle.");',
  ])("catch planted code that reads prose: %s", (line) => {
    expect(readsProse("planted.ts", line)).toHaveLength(1);
  });

  test("let code ask whether there is a sentence, and compare codes", () => {
    const plain = 'const a = r.because === undefined; const b = problem.code === "no-time"; const c = says !== null;';
    expect(readsProse("plain.ts", plain)).toEqual([]);
  });

  const planted = withFaults.summary.violations.map((v) => `${v.rule.name}: ${v.from}`);
  const plantedRooms = roomsOf(withFaults.modules);

  test.each([
    "signal-looks-down-only: src/signal/planted-up.ts",
    "uplot-has-one-home: src/exhaust/planted-package.ts",
    "pure-layers-see-no-node: src/capture/planted-node.ts",
    "workers-see-no-page: workers/planted-page.ts",
    "no-cycles: src/job/planted-a.ts",
  ])("catch a planted fault, %s", (fault) => {
    expect(planted).toContain(fault);
  });

  test("catch two planted rooms that import each other", () => {
    expect(plantedRooms.flatMap(circles)).toContain("src/job: planted-room <-> record");
  });

  test("catch a planted file at a layer's root that is neither entry nor ground", () => {
    expect(plantedRooms.flatMap(halfway)).toEqual(["src/job/planted-root.ts"]);
  });
});
