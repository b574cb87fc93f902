// Mutation testing: small faults put into src/signal and the findings, one at a time, and whether a test finds each. A sample of
// blocks of lines, the same each time. npm run full:mutants writes the table; with a number behind it, of one block in so many.

import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { random } from "../reference/recorders.ts";

interface Place {
  readonly name: string;
  readonly folder: string;
  /** Tests that are asked, globs. */
  readonly tests: readonly string[];
}

/** Tests that draw and judge whole recordings are left out: each fault would take them a minute. */
const places: readonly Place[] = [
  { name: "signal", folder: "src/signal", tests: ["tests/signal/**/*.test.ts"] },
  {
    name: "findings",
    folder: "src/exhaust/findings",
    tests: ["verdicts", "by-hand", "catalyst-words", "store-verdict", "warnings", "swapped-banks", "folded"].map(
      (name) => `tests/exhaust/${name}.test.ts`,
    ),
  },
];

/** Lines of a block, and of how many blocks one is taken. */
const blockLines = 10;
const oneOf = Number(process.argv[2] ?? 48);

interface Mutant {
  readonly status: string;
  readonly mutatorName: string;
  readonly replacement?: string;
  readonly location: { readonly start: { readonly line: number } };
}

const folder = mkdtempSync(join(tmpdir(), "mutants-"));

function blocksOf({ folder: root }: Place): string[] {
  const next = random(7);
  return readdirSync(root, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts"))
    .sort()
    .flatMap((name) => {
      const path = join(root, name);
      const lines = readFileSync(path, "utf8").split("\n").length;
      const blocks = Array.from({ length: Math.ceil(lines / blockLines) }, (_, i) => i * blockLines + 1);
      return blocks.filter(() => next.uniform() < 1 / oneOf).map((from) => `${path}:${from}-${from + blockLines - 1}`);
    });
}

/** Every fault of the sampled blocks, by file. */
function mutantsOf(place: Place): ReadonlyMap<string, readonly Mutant[]> {
  const report = join(folder, `${place.name}.json`);
  const config = join(folder, `${place.name}.config.json`);
  const tests = join(folder, `${place.name}.vitest.config.mjs`);
  writeFileSync(tests, `export default { test: ${JSON.stringify({ include: place.tests, testTimeout: 60_000 })} };`);
  const options = {
    testRunner: "vitest",
    plugins: ["@stryker-mutator/vitest-runner"],
    vitest: { configFile: tests, related: false },
    mutate: blocksOf(place),
    coverageAnalysis: "perTest",
    ignoreStatic: true,
    reporters: ["progress-append-only", "json"],
    jsonReporter: { fileName: report },
    tempDirName: join(folder, "copy"),
    ignorePatterns: ["dist", "public", "src/app"],
    concurrency: 2,
    timeoutMS: 20_000,
    allowEmpty: true,
  };
  writeFileSync(config, JSON.stringify(options));
  const { status } = spawnSync(join("node_modules", ".bin", "stryker"), ["run", config], { stdio: "inherit" });
  if (status !== 0) throw new Error(`${place.name}: the faults could not be tried`);
  const { files } = JSON.parse(readFileSync(report, "utf8")) as { files: Record<string, { mutants: Mutant[] }> };
  return new Map(Object.entries(files).map(([path, { mutants }]) => [path, mutants]));
}

/** A file's, or a place's, line of the table. */
function lineOf(name: string, mutants: readonly Mutant[]): string {
  const of = ["Killed", "Timeout", "Survived", "NoCoverage"].map(
    (wanted) => mutants.filter(({ status }) => status === wanted).length,
  );
  const tried = of.reduce((sum, one) => sum + one, 0);
  const share = tried === 0 ? "" : `${Math.round((100 * (of[0]! + of[1]!)) / tried)} %`;
  return `| ${[name, tried, ...of, share].join(" | ")} |`;
}

function tableOf(all: readonly (readonly [Place, ReadonlyMap<string, readonly Mutant[]>])[]): string {
  const head = [
    "| place | faults | a test failed | none ended in time | none failed | none goes there | found |",
    "| --- | --- | --- | --- | --- | --- | --- |",
  ];
  const rows = all.flatMap(([{ name }, files]) => [
    lineOf(`**${name}**`, [...files.values()].flat()),
    ...[...files].map(([path, mutants]) => lineOf(`\`${path}\``, mutants)),
  ]);
  return [...head, ...rows].join("\n");
}

/** What was not found, for the one who writes the test. */
function survivorsOf(files: ReadonlyMap<string, readonly Mutant[]>): string[] {
  return [...files].flatMap(([path, mutants]) =>
    mutants
      .filter(({ status }) => status === "Survived" || status === "NoCoverage")
      .map((one) => `${path}:${one.location.start.line} ${one.mutatorName} ${(one.replacement ?? "").slice(0, 80)}`),
  );
}

try {
  const all = places.map((place) => [place, mutantsOf(place)] as const);
  console.log(all.flatMap(([, files]) => survivorsOf(files)).join("\n"));
  const said = [
    `Written by \`npm run full:mutants ${oneOf}\`: one block of ${blockLines} lines in ${oneOf}, every fault in it tried alone.`,
    "Found: a test failed, or did not end in time. Faults that act only while a module loads are left out.",
  ];
  writeFileSync(join("tests", "mutants", "table.md"), `# Faults put in\n\n${said.join("\n")}\n\n${tableOf(all)}\n`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
