// What a reader may rely on in every file: short functions, nothing exported in vain, no choice without a difference, no dead style.

import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { root } from "../../src/command/setup.mjs";
import { identicalBranches } from "./branches.ts";
import { unreached } from "./exports.ts";
import { longest, tooLong } from "./lengths.ts";
import { unusedStyles } from "./styles.ts";

function sources(ending: RegExp, ...folders: readonly string[]): ReadonlyMap<string, string> {
  const listed = execFileSync("git", ["ls-files", ...folders], { cwd: root, encoding: "utf8" }).split("\n");
  const files = listed.filter((path) => ending.test(path) && !path.endsWith(".d.mts"));
  return new Map(files.map((path) => [path, readFileSync(join(root, path), "utf8")]));
}

const code = /[.](ts|tsx|mjs)$/;
const product = sources(code, "src", "workers");
const others = sources(code, "tests", "sample-traces");
const each = (check: (path: string, text: string) => readonly string[]) =>
  [...product].flatMap(([path, text]) => check(path, text));

describe(`no function of the product is above ${longest} lines`, () => {
  test("in the whole tree, unless its doc block says why", () => {
    expect(product.size).toBeGreaterThan(500);
    expect(each((path, text) => tooLong(path, text))).toEqual([]);
  });

  const lines = (count: number) => Array.from({ length: count }, () => "  work();").join("\n");
  test.each([
    ["a function", `export function long() {\n${lines(59)}\n}`],
    ["an arrow in a constant", `/** Does much. */\nexport const long = () => {\n${lines(59)}\n};`],
    ["a method", `class A {\n  long() {\n${lines(59)}\n  }\n}`],
  ])("catches planted code: %s", (_, text) => {
    expect(tooLong("planted.ts", text)).toHaveLength(1);
    expect(tooLong("planted.ts", text.replace(lines(59), lines(58)))).toEqual([]);
  });

  test("takes a reason for an answer", () => {
    const text = `/** Long because it reads from top to bottom. */\nexport function long() {\n${lines(80)}\n}`;
    expect(tooLong("planted.ts", text)).toEqual([]);
  });
});

describe("nothing is exported in vain", () => {
  test("in the whole tree", () => {
    expect(unreached(product, others)).toEqual([]);
  });

  test("catches what nothing uses, what only a test uses, and what only its own file does", () => {
    const planted = new Map([
      ["src/a.ts", "export const one = 1;\nexport const two = 2;\nexport const three = 3;\nconst own = three;\n"],
      ["src/b.ts", 'import { four } from "./c.ts";\nuse(four);\n'],
      [
        "src/c.ts",
        "export const four = 4;\nexport interface Five {}\nexport const six = (five: Five) => five;\nsix();\n",
      ],
    ]);
    const tests = new Map([
      ["tests/a.test.ts", 'import { two } from "../src/a.ts";\nimport { six } from "../src/c.ts";\n'],
    ]);
    expect(unreached(planted, tests)).toEqual([
      "src/a.ts one: used nowhere",
      "src/a.ts two: used nowhere",
      "src/a.ts three: used at home only",
    ]);
  });
});

describe("no choice is without a difference", () => {
  test("in the whole tree", () => {
    expect(each(identicalBranches)).toEqual([]);
  });

  test.each([
    "const a = isSo ? one(x) : one(x);",
    "if (isSo) { go(); } else { go(); }",
    'switch (kind) { case "a": return 1; case "b": return 1; }',
    "if (a) go(); else if (b) go();",
  ])("catches planted code: %s", (text) => {
    expect(identicalBranches("planted.ts", text)).toHaveLength(1);
  });
});

describe("no style is without an element", () => {
  const sheets = [...sources(/[.]css$/, "src").values()];
  const makers = [...product.values(), readFileSync(join(root, "index.html"), "utf8")].join("\n");
  /** uPlot's own elements. */
  const foreign = ["u-", "uplot"];

  test("in all sheets", () => {
    expect(sheets.length).toBeGreaterThan(10);
    expect(unusedStyles(sheets, makers, foreign)).toEqual([]);
  });

  test("catches a class that no code names, and a value that no style asks for", () => {
    const css = ".kept .gone:hover { --dead: 1px; --live: 2px; color: var(--live); } .ink-front { top: 0.5px; }";
    const page = '<p class="kept">, `ink-$' + "{token}`";
    expect(unusedStyles([css], page, [])).toEqual([".gone", "--dead"]);
  });
});
