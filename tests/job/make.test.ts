import { describe, expect, test } from "vitest";
import { adaptBench } from "../../src/job/edits/bench.ts";
import { hideChannel, visibleLanes } from "../../src/job/edits/lanes.ts";
import { changeJob, changeLimit, changePipe, isEmpty, lookAt, newJob, nextStamp } from "../../src/job/edits/make.ts";
import { editStretch, resetStretch } from "../../src/job/edits/stretch-edits.ts";
import { at, bench, channels, job } from "./samples.ts";

describe("a job", () => {
  test("is empty until something of the user's is in it", () => {
    expect(isEmpty(newJob("j", at(0)))).toBe(true);
    expect(isEmpty(job)).toBe(false);
    const begun = newJob("j", at(0));
    expect(isEmpty(changeJob(begun, at(1), { name: "Blue estate" }))).toBe(false);
    expect(isEmpty(changePipe(begun, at(1), 2))).toBe(false);
    expect(isEmpty(changeLimit(begun, at(1), "shortDelay", 0.2))).toBe(false);
  });

  test("is changed later by each change, though the clock was set back", () => {
    const set = "2009-01-01T00:00:00.000Z";
    expect(nextStamp({ changedAt: at(5) }, at(6))).toBe(at(6));
    const first = nextStamp({ changedAt: at(5) }, set);
    expect(first > at(5)).toBe(true);
    expect(nextStamp({ changedAt: first }, set) > first).toBe(true);
  });

  test("keeps only the limits that were changed", () => {
    const changed = changeLimit(job, at(2), "shortDelay", 0.2);
    expect(changed.limits).toEqual({ shortDelay: 0.2 });
    expect(changeLimit(changed, at(3), "shortDelay", null).limits).toEqual({});
  });

  test("notes which recording is looked at, and is no newer for it", () => {
    const looked = lookAt(job, "a1");
    expect(looked).toEqual({ ...job, lookedAt: "a1" });
    expect(lookAt(looked, "a1")).toBe(looked);
    expect(lookAt(job, "gone")).toBe(job);
  });

  test("says nothing of a pipe whose volume is not known", () => {
    expect(changePipe(job, at(2), 2).pipe).toEqual({ litres: 2 });
    expect("pipe" in changePipe(changePipe(job, at(2), 2), at(3), null)).toBe(false);
  });
});

describe("a recording read another way", () => {
  test("keeps what still fits, drops what is gone, and shows what is new", () => {
    const fresh = { id: "c7", name: "Lambda", unit: "1", role: "front-lambda" as const, bank: 1 as const };
    const adapted = adaptBench(hideChannel(bench, "c3"), [...channels.slice(0, 3), fresh]);
    expect(visibleLanes(adapted).map((lane) => lane.channelIds)).toEqual([["c1", "c2"], ["c7"]]);
    expect(adapted.hidden).toEqual(["c3"]);
  });
});

describe("stretches put right by hand", () => {
  test("keep the last word on a span, until it is taken back", () => {
    const span = { from: 10, to: 20 };
    const edited = editStretch(editStretch(bench, { ...span, kind: "idle" }), { ...span, kind: "cruise" });
    expect(edited.stretchEdits).toEqual([{ ...span, kind: "cruise" }]);
    expect(resetStretch(edited, span).stretchEdits).toEqual([]);
  });
});
