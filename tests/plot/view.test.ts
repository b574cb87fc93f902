// Arithmetic of the view, the lanes' places, key steps and the animation frame.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { nextTime } from "../../src/plot/dimensions/moves.ts";
import { panned, within, zoomed } from "../../src/plot/hands/view.ts";
import { glide, wantedRanges } from "../../src/plot/stage/fit.ts";
import { makeFrame } from "../../src/plot/stage/frame.ts";
import { laneAt, laneBoxes } from "../../src/plot/stage/layout.ts";
import type { LaneLook, TraceWindow } from "../../src/plot/stage/types.ts";

const whole = { from: 0, to: 60 };

describe("the view", () => {
  test("never leaves the capture, whatever is asked", () => {
    const time = fc.double({ min: -200, max: 200, noNaN: true });
    const factor = fc.double({ min: 1e-6, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(time, time, factor, time, (a, b, by, at) => {
        const view = within({ from: Math.min(a, b), to: Math.max(a, b) }, whole);
        for (const next of [view, zoomed(view, whole, at, by), panned(view, whole, at)]) {
          expect(next.from).toBeGreaterThanOrEqual(0);
          expect(next.to).toBeLessThanOrEqual(60 + 1e-9);
          expect(next.to).toBeGreaterThan(next.from);
        }
      }),
    );
  });

  test("keeps the instant under the pointer while it zooms", () => {
    const next = zoomed({ from: 10, to: 30 }, whole, 15, 0.1);
    expect((15 - next.from) / (next.to - next.from)).toBeCloseTo(0.25, 12);
  });

  test("stands still in a capture of no length", () => {
    const { from, to } = within({ from: 0, to: 0 }, { from: 0, to: 0 });
    expect(to).toBeGreaterThan(from);
  });
});

describe("lanes", () => {
  test("share the height and do not overlap", () => {
    const boxes = [
      ...laneBoxes({ width: 900, height: 700 }, [
        { id: "a", share: 3 },
        { id: "b", share: 1 },
      ]).values(),
    ];
    expect(boxes[0]!.bottom).toBeLessThan(boxes[1]!.top);
    expect(boxes[1]!.bottom).toBeLessThan(700);
    expect(boxes[0]!.bottom - boxes[0]!.top).toBeGreaterThan(boxes[1]!.bottom - boxes[1]!.top);
  });

  test("the nearest one is found between and beyond them", () => {
    const boxes = laneBoxes({ width: 900, height: 700 }, [
      { id: "a", share: 1 },
      { id: "b", share: 1 },
    ]);
    expect([laneAt(boxes, 0), laneAt(boxes, 699)]).toEqual(["a", "b"]);
    expect(laneAt(new Map(), 10)).toBeNull();
  });
});

const lane: LaneLook = {
  id: "a",
  title: "a",
  unit: "V",
  layers: [{ form: "line", source: "own", channelId: "c1", label: "front", unit: "V", look: "front" }],
  scale: "fit",
  share: 1,
  guides: [],
};
const ramp: TraceWindow = {
  channelId: "c1",
  times: Float64Array.of(0, 1, 2, 3),
  values: Float64Array.of(0, 1, 2, 3),
  dense: false,
};

describe("fitting", () => {
  test("looks at the view only, not at what the window holds beside it", () => {
    const ranges = wantedRanges([lane], new Map([["c1", ramp]]), { from: 0.5, to: 0.9 }, new Map());
    expect(ranges.get("a")![1]).toBeLessThan(1.2);
  });

  test("glides to a new scale and arrives", () => {
    let shown: ReadonlyMap<string, readonly [number, number]> = new Map([["a", [0, 1]]]);
    const wanted = new Map([["a", [0, 100] as const]]);
    let steps = 0;
    while (shown !== wanted && steps++ < 60) shown = glide(shown, wanted);
    expect(shown).toBe(wanted);
    expect(steps).toBeGreaterThan(2);
  });
});

describe("a step by key", () => {
  test("goes to the next sample where samples are shown, else a pixel on", () => {
    expect(nextTime(1.2, 1, 0.01, [ramp])).toBe(2);
    expect(nextTime(1, -1, 0.01, [ramp])).toBe(0);
    expect(nextTime(1, 1, 0.01, [{ ...ramp, dense: true }])).toBeCloseTo(1.01, 12);
    expect(nextTime(3, 1, 0.01, [ramp])).toBeCloseTo(3.01, 12);
    expect(nextTime(1, 1, 5, [ramp])).toBe(6);
  });
});

describe("the frame", () => {
  test("runs a task once, and what it brings about in the same frame", () => {
    const runs: (() => void)[] = [];
    const frame = makeFrame((run) => runs.push(run));
    const log: string[] = [];
    const draw = () => log.push("draw");
    const tell = () => {
      log.push("tell");
      frame.queue(draw);
    };
    frame.queue(tell);
    frame.queue(tell);
    expect(runs).toHaveLength(1);
    runs[0]!();
    expect(log).toEqual(["tell", "draw"]);
    expect(runs).toHaveLength(1);
  });

  test("leaves movement to the next frame, and survives a task that throws", () => {
    const runs: (() => void)[] = [];
    const frame = makeFrame((run) => runs.push(run));
    const log: string[] = [];
    frame.queue(() => frame.next(() => log.push("moved")));
    runs[0]!();
    expect(log).toEqual([]);
    frame.queue(() => {
      throw new Error("a bug");
    });
    expect(() => runs[1]!()).toThrow("a bug");
    frame.queue(() => log.push("still here"));
    runs.at(-1)!();
    expect(log).toEqual(["moved", "still here"]);
  });
});
