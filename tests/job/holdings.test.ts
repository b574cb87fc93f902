import { describe, expect, test } from "vitest";
import { keepExhibit } from "../../src/job/edits/make.ts";
import { jobText } from "../../src/job/record/format.ts";
import { photoNames } from "../../src/job/record/photo-names.ts";
import { holdingsOf } from "../../src/job/storage/holdings.ts";
import { exhibit } from "./any-edit.ts";
import { at, captureRecord, job } from "./samples.ts";

const hex = (digit: string) => digit.repeat(64);
const withExhibit = keepExhibit({ ...job, captures: [captureRecord(hex("a"))] }, at(2), exhibit("e1"));

describe("holdingsOf", () => {
  test("counts each job's pictures, and what was left behind by a kill between picture and record", () => {
    const sizes = [
      ["j1/e1.png", 10],
      ["j1/e1.svg", 5],
      ["j1/e2.png", 7],
      ["gone/e1.png", 3],
    ] as const;
    const { jobs, orphans } = holdingsOf([["j1", jobText(withExhibit)]], sizes, []);
    expect(jobs).toEqual([{ id: "j1", captureIds: [hex("a")], pictures: 22 }]);
    expect(orphans).toEqual([
      { jobId: "j1", name: "e2.png", size: 7 },
      { jobId: "gone", name: "e1.png", size: 3 },
    ]);
  });

  test.each([
    ["set aside", []],
    ["of a newer program", [["j1", jobText({ ...withExhibit, version: 99 as never })] as const]],
  ])("takes nothing from a record %s: all that it may name stays", (_, jobs) => {
    const text = jobText(withExhibit).replace('"paper"', '"pepper"');
    const aside = jobs.length > 0 ? [] : [{ id: "j1", text }];
    const found = holdingsOf(jobs, [["j1/e1.png", 1]], aside);
    expect(found.jobs[0]!.captureIds).toContain(hex("a"));
    expect(found.orphans).toEqual([]);
  });

  test("knows a photo by the id that its names are made of", () => {
    const photo = { id: hex("b"), name: "tailpipe", type: "image/jpeg", size: 9 };
    const { original, scaled } = photoNames(photo.id);
    const sizes = [original, scaled, photoNames(hex("c")).scaled].map((name) => [`j1/${name}`, 1] as const);
    const { orphans } = holdingsOf([["j1", jobText({ ...withExhibit, photos: [photo] })]], sizes, []);
    expect(orphans.map(({ name }) => name)).toEqual([photoNames(hex("c")).scaled]);
  });
});
