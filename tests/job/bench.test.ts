import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { roles } from "../../src/capture/model/capture.ts";
import { defaultBench } from "../../src/job/edits/bench.ts";
import {
  channelInForce,
  correctionText,
  setChannel,
  setRole,
  settingsOf,
  swapFrontAndRear,
} from "../../src/job/edits/channels.ts";
import {
  hideChannel,
  holdScales,
  laneOf,
  moveChannel,
  shiftLane,
  showChannel,
  splitChannel,
  visibleLanes,
} from "../../src/job/edits/lanes.ts";
import { acceptLiftOff, addLiftOff, moveLiftOff, rejectLiftOff } from "../../src/job/edits/lift-off-edits.ts";
import { bench, channels } from "./samples.ts";

describe("defaultBench", () => {
  test("puts front and rear over each other on top, and what explains them below", () => {
    expect(visibleLanes(bench).map((lane) => lane.channelIds)).toEqual([["c1", "c2"], ["c4"], ["c3"], ["c5"]]);
    expect(bench.hidden).toEqual(["c6"]);
  });

  test("hides what never holds a value, in favour of what does", () => {
    const empty = channels.map((c) => (c.id === "c4" ? { ...c, range: null } : c));
    const state = defaultBench(empty);
    expect(visibleLanes(state).map((lane) => lane.channelIds)).toEqual([["c1", "c2"], ["c3"], ["c5"], ["c6"]]);
    expect(state.hidden).toEqual(["c4"]);
    expect(visibleLanes(defaultBench([empty[3]!])).length).toBe(1);
  });

  test("judges bank 2 when only that one was recorded", () => {
    const second = channels.slice(0, 2).map((c) => ({ ...c, bank: 2 as const }));
    expect(defaultBench(second).bank).toBe(2);
  });

  test("keeps every channel in exactly one lane, whatever the file holds", () => {
    const channel = fc.record({ role: fc.constantFrom(...roles), bank: fc.constantFrom(1 as const, 2 as const) });
    fc.assert(
      fc.property(fc.array(channel, { maxLength: 20 }), (drawn) => {
        const all = drawn.map((c, i) => ({ ...c, id: `c${i}`, name: "", unit: "" }));
        const state = defaultBench(all);
        const placed = state.lanes.flatMap((lane) => lane.channelIds).sort();
        expect(placed).toEqual(all.map((c) => c.id).sort());
        expect(new Set(state.lanes.map((lane) => lane.id)).size).toBe(state.lanes.length);
        expect(all.length === 0 || visibleLanes(state).length > 0).toBe(true);
      }),
    );
  });
});

describe("lanes", () => {
  test("hide and show a channel without losing its place", () => {
    const hidden = hideChannel(bench, "c2");
    expect(visibleLanes(hidden)[0]!.channelIds).toEqual(["c1"]);
    expect(visibleLanes(showChannel(hidden, "c2"))).toEqual(visibleLanes(bench));
  });

  test("put a channel over another, and drop the lane it left empty", () => {
    const moved = moveChannel(bench, "c6", laneOf(bench, "c3")!.id);
    expect(laneOf(moved, "c6")!.channelIds).toEqual(["c3", "c6"]);
    expect(moved.hidden).toEqual([]);
    expect(moved.lanes.length).toBe(bench.lanes.length - 1);
  });

  test("give a channel its own lane below the one it left, under a free name", () => {
    const split = splitChannel(bench, "c1");
    expect(split.lanes.slice(0, 2).map((lane) => lane.channelIds)).toEqual([["c2"], ["c1"]]);
    expect(new Set(split.lanes.map((lane) => lane.id)).size).toBe(split.lanes.length);
  });

  test("change places, but not past the ends", () => {
    const second = bench.lanes[1]!.id;
    expect(shiftLane(bench, second, -1).lanes[0]!.id).toBe(second);
    expect(shiftLane(bench, bench.lanes[0]!.id, -1)).toBe(bench);
  });

  test("hold their scale and let it follow again", () => {
    const held = holdScales(bench, { "lane-c1": [0, 1] });
    expect(held.lanes[0]!.scale).toEqual([0, 1]);
    expect(holdScales(held, "fit")).toEqual(bench);
  });
});

describe("channel settings", () => {
  test("leave the file's word in force until the user says otherwise", () => {
    expect(channelInForce(bench, channels[0]!)).toEqual(channels[0]);
    expect(channelInForce(setRole(bench, "c1", "rear-o2"), channels[0]!).role).toBe("rear-o2");
    expect(settingsOf(bench, "c1")).toEqual({ gain: 1, offset: 0 });
  });

  test("swap front and rear in one edit, and back in another", () => {
    const swapped = swapFrontAndRear(bench, channels);
    expect(channels.slice(0, 2).map((c) => channelInForce(swapped, c).role)).toEqual(["rear-o2", "front-o2"]);
    const back = swapFrontAndRear(swapped, channels);
    expect(channels.slice(0, 2).map((c) => channelInForce(back, c).role)).toEqual(["front-o2", "rear-o2"]);
    expect(swapFrontAndRear(bench, channels.slice(1))).toBe(bench);
  });

  test("state a correction in words, and nothing where there is none", () => {
    expect(correctionText({ gain: 1, offset: 0 }, "V")).toBe("");
    expect(correctionText({ gain: 10, offset: -0.5 }, "V")).toBe("shown = recorded × 10 − 0.5\u00a0V");
    expect(correctionText(settingsOf(setChannel(bench, "c1", { gain: -1 }), "c1"), "V")).toBe("shown = recorded × −1");
  });
});

describe("lift-off edits", () => {
  test("keep the last word on each event", () => {
    const moved = moveLiftOff(moveLiftOff(bench, "1", 30), "1", 31);
    expect(moved.liftOffEdits).toEqual([{ kind: "move", id: "1", at: 31 }]);
    const added = moveLiftOff(addLiftOff(bench, "mine", 40), "mine", 41);
    expect(added.liftOffEdits).toEqual([{ kind: "add", id: "mine", at: 41 }]);
  });

  test("reject with a reason and take it back", () => {
    const rejected = rejectLiftOff(bench, "2", "gear change");
    expect(rejected.liftOffEdits).toEqual([{ kind: "reject", id: "2", because: "gear change" }]);
    expect(acceptLiftOff(rejected, "2").liftOffEdits).toEqual([]);
    expect(acceptLiftOff(rejected, "2", true).liftOffEdits).toEqual([{ kind: "accept", id: "2" }]);
  });
});
