import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import { decodeHead, encodingOf } from "../../src/capture/text/encoding.ts";
import { splitRows } from "../../src/capture/text/split.ts";

const require = createRequire(import.meta.url);

// The npm package csv-spectrum: awkward CSV files, each with what its rows are.
const spectrum = dirname(require.resolve("csv-spectrum"));
const names = readdirSync(join(spectrum, "csvs")).map((file) => file.replace(/\.csv$/, ""));

describe("csv-spectrum", () => {
  test.each(names)("%s", (name) => {
    const bytes = readFileSync(join(spectrum, "csvs", `${name}.csv`));
    const expected = JSON.parse(readFileSync(join(spectrum, "json", `${name}.json`), "utf8")) as Record<
      string,
      string
    >[];
    const [header = [], ...body] = splitRows(decodeHead(bytes, encodingOf(bytes)), ",").rows.filter(
      (row) => row.join("") !== "",
    );
    const records = body.map((row) => Object.fromEntries(header.map((field, i) => [field, row[i]])));
    // In its JSON the package has another phone number than in its CSV, and no list around the one record.
    if (name === "location_coordinates")
      return expect(records).toEqual([{ ...expected, "Contact Phone Number": "2095257564" }]);
    // Line ends are made one, inside quotes as well.
    expect(records).toEqual(JSON.parse(JSON.stringify(expected).replaceAll("\\r\\n", "\\n")));
  });
});

interface PapaCase {
  readonly description: string;
  readonly input: string;
  readonly config?: Record<string, unknown>;
  readonly expected: { readonly data: string[][] };
}

/** The cases papaparse ships for its core parser, taken out of its test file, which wants a runner of its own. */
function papaCases(): PapaCase[] {
  const text = readFileSync(join(dirname(require.resolve("papaparse/package.json")), "tests", "test-cases.js"), "utf8");
  const [from, to] = [text.indexOf("var CORE_PARSER_TESTS"), text.indexOf("describe('Core Parser Tests'")];
  const cases = new Function("RECORD_SEP", "UNIT_SEP", `${text.slice(from, to)}; return CORE_PARSER_TESTS;`)(
    "\u001e",
    "\u001f",
  ) as PapaCase[];
  // Ours are the cases that need no more than a delimiter and our quote mark.
  return cases.filter(
    ({ config = {} }) =>
      Object.keys(config).every((key) => key === "delimiter") && !(config.delimiter instanceof Function),
  );
}

describe("Papa Parse's own cases", () => {
  const cases = papaCases();

  test("there are enough of them", () => expect(cases.length).toBeGreaterThan(30));

  test.each(cases.map((one) => [one.description, one] as const))("%s", (_, { input, config, expected }) => {
    const delimiter = typeof config?.delimiter === "string" ? config.delimiter : ",";
    expect(splitRows(input, delimiter).rows).toEqual(expected.data);
  });
});
