// Companions on a bench: added, shifted, taken off; what is pinned goes along and readings allow for the shift.

import { describe, expect, test } from "vitest";
import { shiftByHand } from "../../src/exhaust/lining-up/line-up.ts";
import { notLinedUp } from "../../src/exhaust/lining-up/same-run.ts";
import { adaptBench, defaultBench } from "../../src/job/edits/bench.ts";
import {
  addCompanion,
  companionChannel,
  companionOf,
  removeCompanion,
  shiftCompanion,
  shiftDoubt,
} from "../../src/job/edits/companions.ts";
import { readDimension } from "../../src/job/edits/dimensions.ts";
import { hideChannel, moveChannel, visibleLanes } from "../../src/job/edits/lanes.ts";
import { dropCapture, keepCapture, newJob } from "../../src/job/edits/make.ts";
import { jobText, readJob } from "../../src/job/record/format.ts";
import type { Anchor, BenchState, Dimension } from "../../src/job/record/job.ts";

const facts = (id: string, role: "front-o2" | "rear-o2" | "throttle") => ({
  id,
  name: id,
  unit: "V",
  role,
  bank: 1 as const,
});
const own = defaultBench([facts("c1", "front-o2"), facts("c2", "rear-o2"), facts("c3", "throttle")]);
const other = "b".repeat(64);
const theirs = (id: string) => companionChannel(other, id);
const joined = addCompanion(own, { captureId: other, shift: shiftByHand(2, 0.1) }, hideChannel(own, "c3"));
const [sensors, sensorsOfOther] = [own.lanes[0]!.id, joined.lanes[2]!.id];

const at = (time: number, channelId?: string): Anchor => ({
  time,
  level: 0.45,
  ...(channelId ? { snap: { channelId, to: "crossing" as const, low: time - 0.01, high: time + 0.01 } } : {}),
});
const pair = (laneId: string, from: Anchor, to: Anchor): Dimension => {
  const draft = { id: "d", kind: "time" as const, laneId, from, to, place: 0.5, label: "" };
  return { ...draft, reading: readDimension(draft, 0.05, "V") };
};
const withPair = (d: Dimension): BenchState => ({ ...joined, dimensions: [d] });

describe("a companion", () => {
  test("comes in lanes of its own below, hidden where its own bench hides it", () => {
    expect(joined.lanes.map(({ channelIds }) => channelIds)).toEqual([
      ["c1", "c2"],
      ["c3"],
      [theirs("c1"), theirs("c2")],
      [theirs("c3")],
    ]);
    expect(visibleLanes(joined)).toHaveLength(3);
    expect(companionOf(theirs("c1"))).toEqual({ captureId: other, channelId: "c1" });
    expect(companionOf("c1")).toBeNull();
    expect(addCompanion(joined, { captureId: other, shift: notLinedUp }, own)).toBe(joined);
  });

  test("is put over other channels like any other, and stays when the recording is read another way", () => {
    const over = moveChannel(joined, theirs("c1"), sensors);
    expect(over.lanes[0]!.channelIds).toEqual(["c1", "c2", theirs("c1")]);
    const again = adaptBench(over, [facts("c1", "front-o2"), facts("c9", "rear-o2")]);
    expect(again.lanes[0]!.channelIds).toEqual(["c1", theirs("c1")]);
    expect(again.companions).toEqual(joined.companions);
  });

  test("goes with its lanes and what was pinned there; what was snapped to it elsewhere keeps its place", () => {
    const over = moveChannel(joined, theirs("c1"), sensors);
    const both = [pair(sensors, at(1, "c1"), at(3, theirs("c1"))), { ...pair(sensorsOfOther, at(1), at(2)), id: "e" }];
    const without = removeCompanion({ ...over, dimensions: both }, other);
    expect(without.lanes).toEqual(own.lanes);
    expect("companions" in without).toBe(false);
    expect(without.dimensions.map(({ id, to }) => [id, to])).toEqual([["d", { time: 3, level: 0.45 }]]);
  });

  test("takes along what stands on its traces when it is shifted, and nothing else", () => {
    const shifted = (d: Dimension) => shiftCompanion(withPair(d), other, shiftByHand(2.5, 0.1)).dimensions[0]!;
    const times = ({ from, to }: Dimension) => [from.time, to.time];
    expect(times(shifted(pair(sensors, at(1), at(3))))).toEqual([1, 3]);
    expect(times(shifted(pair(sensors, at(1, "c1"), at(3, theirs("c1")))))).toEqual([1, 3.5]);
    expect(shifted(pair(sensors, at(1, "c1"), at(3, theirs("c1")))).to.snap).toMatchObject({ low: 3.49, high: 3.51 });
    expect(times(shifted(pair(sensorsOfOther, at(1), at(3))))).toEqual([1.5, 3.5]);
  });

  test("is gone from every bench when it is taken out of the job, and a saved job carries it", () => {
    const stamp = "2026-03-01T10:00:00.000Z";
    const record = (id: string, bench: BenchState) => ({ id, fileName: id, sha256: id, size: 1, choices: {}, bench });
    const job = keepCapture(keepCapture(newJob("j", stamp), stamp, record("a", joined)), stamp, record(other, own));
    const read = readJob(jobText(job), "here");
    expect(read.ok && read.value.captures[0]!.bench.companions).toEqual(joined.companions);
    expect(dropCapture(job, stamp, other).captures[0]!.bench).toEqual(own);
  });
});

describe("a time pair from one recording to another", () => {
  const between = pair(sensors, at(1, "c1"), at(3, theirs("c1")));

  test("allows for the shift's bounds; on one recording it owes nothing", () => {
    expect(shiftDoubt(joined, between)).toBeCloseTo(0.1, 12);
    expect(shiftDoubt(joined, pair(sensors, at(1, "c1"), at(3)))).toBe(0);
    expect(shiftDoubt(joined, pair(sensorsOfOther, at(1), at(3, theirs("c2"))))).toBe(0);
    // In a lane that holds both, a hand may mean either.
    expect(shiftDoubt(moveChannel(joined, theirs("c1"), sensors), pair(sensors, at(1), at(3)))).toBeCloseTo(0.1, 12);
    // 3 - 1, each end known to 0.01 and the shift to 0.1.
    const { value, low, high } = readDimension(between, 0.05, "V", shiftDoubt(joined, between));
    expect([value, low!.toFixed(9), high!.toFixed(9)]).toEqual([2, "1.880000000", "2.120000000"]);
  });

  test("cannot be read while the two are not lined up", () => {
    const loose = shiftCompanion(joined, other, notLinedUp);
    expect(shiftDoubt(loose, between)).toBe(Infinity);
    expect(readDimension(between, 0.05, "V", Infinity)).toMatchObject({ value: null, grade: "not-resolvable" });
  });
});
