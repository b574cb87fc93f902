import { describe, expect, test } from "vitest";
import { setChannel, setRole } from "../../src/job/edits/channels.ts";
import { removeDimension } from "../../src/job/edits/dimensions.ts";
import { changeJob, dropCapture, keepBench, keepCapture } from "../../src/job/edits/make.ts";
import { mergeJobs } from "../../src/job/merge/merge-jobs.ts";
import { addDimension, at, bench, captureRecord, dimension, job } from "./samples.ts";

describe("mergeJobs", () => {
  const named = changeJob(job, at(5), { name: "Estate" });
  const noted = changeJob(job, at(6), { notes: "leak ruled out" });

  test("keeps what each side changed, whoever saves last", () => {
    for (const merged of [mergeJobs(job, named, noted), mergeJobs(job, noted, named)]) {
      expect(merged).toMatchObject({ name: "Estate", notes: "leak ruled out", changedAt: at(6) });
    }
  });

  test("lets the newer side win where both changed the same text", () => {
    const other = changeJob(job, at(4), { name: "Van" });
    expect(mergeJobs(job, named, other).name).toBe("Estate");
    expect(mergeJobs(job, other, named).name).toBe("Estate");
  });

  test("keeps recordings and dimensions added on either side", () => {
    const mine = keepBench(
      keepCapture(job, at(5), captureRecord("b1")),
      at(5),
      "a1",
      addDimension(bench, dimension("d1")),
    );
    const theirs = keepBench(
      keepCapture(job, at(6), captureRecord("c1")),
      at(6),
      "a1",
      addDimension(bench, dimension("d2")),
    );
    const merged = mergeJobs(job, mine, theirs);
    expect(merged.captures.map((c) => c.id).sort()).toEqual(["a1", "b1", "c1"]);
    expect(merged.captures.find((c) => c.id === "a1")!.bench.dimensions.map((d) => d.id)).toEqual(["d1", "d2"]);
  });

  test("lets go what one side took out and the other left alone", () => {
    const base = keepBench(job, at(2), "a1", addDimension(bench, dimension("d1")));
    const without = keepBench(base, at(5), "a1", removeDimension(base.captures[0]!.bench, "d1"));
    expect(mergeJobs(base, without, changeJob(base, at(6), { notes: "x" })).captures[0]!.bench.dimensions).toEqual([]);
    expect(mergeJobs(job, dropCapture(job, at(5), "a1"), noted).captures).toEqual([]);
  });

  test("keeps what one side took out when the other went on working on it", () => {
    const worked = keepBench(job, at(6), "a1", addDimension(bench, dimension("d1")));
    expect(mergeJobs(job, dropCapture(job, at(5), "a1"), worked).captures).toEqual(worked.captures);
  });

  test("lets a role and a gain stand together, named on two sides of a channel that nobody had touched", () => {
    const gained = keepBench(job, at(5), "a1", setChannel(bench, "c1", { gain: 10 }));
    const named = keepBench(job, at(6), "a1", setRole(bench, "c1", "other"));
    for (const merged of [mergeJobs(job, gained, named), mergeJobs(job, named, gained)]) {
      expect(merged.captures[0]!.bench.channels.c1).toEqual({ gain: 10, offset: 0, role: "other" });
    }
  });

  test("takes nothing out where no common version is known, and keeps both notes", () => {
    const here = changeJob(keepBench(job, at(5), "a1", addDimension(bench, dimension("d1"))), at(5), { notes: "here" });
    const bundle = changeJob(keepCapture(job, at(4), captureRecord("b1")), at(4), { notes: "in the bundle" });
    const merged = mergeJobs(null, here, bundle);
    expect(merged.captures.map(({ id }) => id).sort()).toEqual(["a1", "b1"]);
    expect(merged.captures.find(({ id }) => id === "a1")!.bench.dimensions).toHaveLength(1);
    expect(merged.notes).toBe("here\n\nin the bundle");
    expect(mergeJobs(null, merged, bundle)).toEqual(merged);
  });
});
