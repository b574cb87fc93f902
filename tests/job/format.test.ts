import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { addDimension } from "../../src/job/edits/dimensions.ts";
import { keepBench, keepExhibit, lookAt } from "../../src/job/edits/make.ts";
import { jobText, readJob } from "../../src/job/record/format.ts";
import type { Laid } from "../../src/job/record/job.ts";
import { at, bench, dimension, job } from "./samples.ts";

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

describe("the saved format", () => {
  test("comes back as it was written", () => {
    expect(readJob(jobText(full), "job.json")).toEqual({ ok: true, value: full });
  });

  test("refuses a newer version, and names both", () => {
    const read = readJob(jobText({ ...full, version: 99 as 1 }), "job.json");
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

  test("never throws and never lets a job of the wrong shape through, whatever is cut out of it", () => {
    const text = jobText(full);
    fc.assert(
      fc.property(fc.nat(text.length), fc.nat(40), (from, length) => {
        const cut = text.slice(0, from) + text.slice(from + length);
        expect(["ok", "damaged", "newer-version"]).toContain(codeOf(cut));
      }),
    );
  });
});
