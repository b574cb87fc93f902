import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import type { InferOutput } from "valibot";
import { describe, expect, expectTypeOf, test } from "vitest";
import type { ReadChoices } from "../../src/capture/model/reader.ts";
import { root } from "../../src/command/setup.mjs";
import { setChannel } from "../../src/job/edits/channels.ts";
import { keepBench, keepExhibit, lookAt } from "../../src/job/edits/make.ts";
import { noEvidence } from "../../src/job/evidence/evidence.ts";
import { jobText, readJob } from "../../src/job/record/format.ts";
import type { Laid } from "../../src/job/record/job.ts";
import { jobVersion } from "../../src/job/record/job.ts";
import type { readChoices } from "../../src/job/record/schema-parts.ts";
import { anyEdit, startingJob } from "./any-edit.ts";
import { addDimension, at, bench, dimension, job } from "./samples.ts";

const laid: Laid = {
  shift: {
    shift: { value: -4, low: -4.1, high: -3.9, unit: "s", grade: "measured" },
    ...{ by: "hand", says: "by hand", ambiguousBy: null },
  },
  picture: { place: "below", difference: true },
  parts: [{ of: "cruise", what: "cruise stretches", suspect: ["cruise 0.000"], reference: ["cruise 20.000"] }],
};
const looked = { ...addDimension(bench, dimension("d1")), compared: "shelf:s1", laid };

const full = keepExhibit(keepBench(lookAt(job, "a1"), at(2), "a1", looked), at(3), {
  id: "e1",
  captureId: "a1",
  revision: 1,
  headline: "The rear follows the front",
  madeAt: at(3),
  paper: "A4",
  svg: "e1.svg",
  png: "e1.png",
});

const codeOf = (text: string) => {
  const read = readJob(text, "job.json");
  return read.ok ? "ok" : read.problem.code;
};

const version1 = readFileSync(join(root, "tests/golden/job/version-1.json"), "utf8");

describe("the schema", () => {
  test("knows every way in which a file may be read", () => {
    expectTypeOf<keyof InferOutput<typeof readChoices>>().toEqualTypeOf<keyof ReadChoices>();
    expectTypeOf<InferOutput<typeof readChoices>>().toExtend<ReadChoices>();
  });

  test("lets every edit that a hand can make be saved and read back", () => {
    fc.assert(
      fc.property(fc.array(anyEdit, { maxLength: 30 }), (edits) => {
        const edited = edits.reduce((now, edit, i) => edit(now, at(i)), startingJob);
        expect(readJob(jobText(edited), "job.json")).toEqual({ ok: true, value: edited });
      }),
      { numRuns: 50 },
    );
  });

  test.each([
    ["1001 dimensions", '"dimensions": [', `"dimensions": [${"0,".repeat(1000)}`, "too-large"],
    ["a million of them", '"dimensions": [', `"dimensions": [${"0,".repeat(1e6)}`, "too-large"],
    ["long notes", '"notes": "', `"notes": "${"x".repeat(100_001)}`, "too-large"],
    ["a note of 60 MB", '"notes": "', `"notes": "${"x".repeat(60e6)}`, "too-large"],
    ["a picture in another folder", '"svg": "e0.svg"', '"svg": "../e0.svg"', "damaged"],
    ["a hidden picture", '"svg": "e0.svg"', '"svg": ".."', "damaged"],
    ["an id of odd letters", '"id": "j1"', '"id": "j1/../j2"', "damaged"],
    ["a number without end", '"gain": 1', '"gain": 1e999', "damaged"],
    ["a size below nothing", '"size": 100', '"size": -1', "damaged"],
    ["two recordings of one id", '"id": "b1"', '"id": "a1"', "damaged"],
    ["another unit of paper", '"A4"', '"A3"', "damaged"],
    ["deep nesting", '"notes": ""', `"notes": ${"[".repeat(1e5)}${"]".repeat(1e5)}`, "damaged"],
  ])("refuses %s by name", (_, from, to, code) => {
    const corrected = keepBench(
      startingJob,
      at(4),
      "a1",
      setChannel(startingJob.captures[0]!.bench, "c1", { offset: 1 }),
    );
    const text = jobText(corrected).replace(from, to);
    expect(text).not.toBe(jobText(corrected));
    const read = readJob(text, "job.json");
    expect(read).toMatchObject({ ok: false, problem: { code } });
    if (!read.ok) expect(JSON.stringify(read.problem).length).toBeLessThan(800);
  });

  test("leaves out what it does not know, the prototype too", () => {
    const text = jobText(startingJob).replace('"notes"', '"__proto__": {"isAdmin": true}, "unknown": 1, "notes"');
    const read = readJob(text, "job.json");
    expect(read).toEqual({ ok: true, value: startingJob });
    expect(read.ok && "isAdmin" in read.value).toBe(false);
  });
});

describe("a job of version 1", () => {
  test("is read whole; what its notes called simulated is marked in each recording", () => {
    const read = readJob(version1, "old.json");
    const { version: _, captures, ...old } = JSON.parse(version1);
    const marked = captures.map((one: object) => ({ ...one, isSimulated: true }));
    expect(read).toEqual({ ok: true, value: { ...old, version: jobVersion, captures: marked } });
  });

  test("without that word in its notes marks none", () => {
    const read = readJob(version1.replace("Simulated", "Estate"), "old.json");
    expect(read.ok && read.value.captures.some(({ isSimulated }) => isSimulated)).toBe(false);
  });
});

describe("a job of version 2", () => {
  test("is read whole; codes that were text stand as codes too", () => {
    const version2 = readFileSync(join(root, "tests/golden/job/version-2.json"), "utf8");
    const codes = ["P0420", "P0171"].map((code) => ({ code, states: ["stored"] }));
    const evidence = { before: { ...noEvidence, codes }, after: noEvidence };
    const value = { ...JSON.parse(version2), version: jobVersion, evidence };
    expect(readJob(version2, "old.json")).toEqual({ ok: true, value });
  });
});

describe("a job of version 3", () => {
  test("is read whole, and has no named instants", () => {
    const version3 = readFileSync(join(root, "tests/golden/job/version-3.json"), "utf8");
    expect(readJob(version3, "old.json")).toEqual({
      ok: true,
      value: { ...JSON.parse(version3), version: jobVersion },
    });
  });
});

describe("the saved format", () => {
  test("comes back as it was written", () => {
    expect(readJob(jobText(full), "job.json")).toEqual({ ok: true, value: full });
  });

  test("refuses a newer version, and names both", () => {
    const read = readJob(jobText({ ...full, version: 99 as never }), "job.json");
    expect(read).toMatchObject({ ok: false, problem: { code: "newer-version" } });
    expect(!read.ok && read.problem.what).toContain("99");
  });

  test.each(["", "[]", "null", "{", '"text"', "{}", '{"version":0}', '{"version":1.5}', '{"version":1}'])(
    "calls %j damaged",
    (text) => expect(codeOf(text)).toBe("damaged"),
  );

  test("names the place that does not fit", () => {
    const broken = jobText(full).replace('"grade": "measured"', '"grade": "sure"');
    const read = readJob(broken, "job.json");
    expect(!read.ok && read.problem.where).toBe("job.json, job.captures[0].bench.dimensions[0].reading.grade");
  });

  test("tells an ending that was cut off from a job, at every place", () => {
    const text = jobText(full).trimEnd();
    for (let end = text.length - 1; end > 0; end -= 37) expect(codeOf(text.slice(0, end))).toBe("damaged");
  });

  test("never throws and never lets a job of the wrong shape through, whatever is cut out of it", () => {
    const text = jobText(full);
    fc.assert(
      fc.property(fc.nat(text.length), fc.nat(40), (from, length) => {
        const cut = text.slice(0, from) + text.slice(from + length);
        const read = readJob(cut, "job.json");
        if (read.ok) {
          // What is let through stands so in the text, and is a job that can be saved.
          expect(JSON.parse(cut)).toMatchObject(read.value);
          expect(readJob(jobText(read.value), "job.json")).toEqual(read);
        } else expect(["damaged", "newer-version", "too-large"]).toContain(read.problem.code);
      }),
      // A cut may leave more than fits: the example was found by chance.
      { numRuns: 300, examples: [[235, 25]] },
    );
  });
});
