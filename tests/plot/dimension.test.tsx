// Dimensions and readouts over the traces: drawn, named, dragged, stepped by keys, placed with a tool.

import { cleanup } from "@solidjs/testing-library";
import { afterEach, describe, expect, test } from "vitest";
import { gutter, margin } from "../../src/plot/stage/layout.ts";
import type { DimensionEvent } from "../../src/plot/stage/types.ts";
import { measured } from "../../src/signal/numbers/reading.ts";
import { type Bench, delay, drag, frames, openBench, press, touch, windowOf, windows } from "./fixture.tsx";

afterEach(cleanup);

const plotWidth = 900 - gutter - margin;
const xOf = (time: number) => gutter + ((time - 10) / 10) * plotWidth;
const grip = (bench: Bench, name: string) => bench.container.querySelector<SVGGElement>(`[aria-label="${name}"]`)!;
const moves = (events: readonly DimensionEvent[]) => events.filter((event) => event.kind === "move");
const texts = (bench: Bench) =>
  [...bench.container.querySelectorAll(".dimension text")].map((text) => text.textContent);

describe("a dimension", () => {
  test("says its value, its bounds and its label", async () => {
    const bench = await openBench({ dimensions: [delay] });
    expect(texts(bench)).toEqual(["2.0\u00a0s", "1.9 … 2.1, front to rear"]);
  });

  test("has a ground behind its words where a trace runs through them wherever they stand, and none where there is room", async () => {
    const everywhere = windowOf("front", 0.05, (time) => Math.sin(40 * time));
    const covered = await openBench({ dimensions: [delay], windows: new Map([...windows, ["front", everywhere]]) });
    const [value, note] = [...covered.container.querySelectorAll(".dimension text")].map((text) =>
      text.getBoundingClientRect(),
    );
    const grounds = [...covered.container.querySelectorAll(".text-ground")].map((one) => one.getBoundingClientRect());
    for (const word of [value!, note!])
      expect(grounds.some(({ left, right }) => left <= word.left + 3 && right >= word.right - 3)).toBe(true);
    cleanup();
    const free = await openBench({ dimensions: [delay] });
    expect(free.container.querySelectorAll(".dimension .text-ground")).toHaveLength(0);
  });

  test("has two ends, each a slider that says time and level", async () => {
    const bench = await openBench({ dimensions: [delay] });
    const first = grip(bench, "front to rear, first end");
    expect(first.getAttribute("role")).toBe("slider");
    expect(first.getAttribute("aria-valuetext")).toMatch(/^12\.00\ss, 0\.45\d?\sV$/);
    expect(grip(bench, "front to rear, second end").getAttribute("aria-valuenow")).toBe("14");
  });

  test("offers at least 44 px to take hold of, also where the ends are close", async () => {
    const close = { ...delay, to: { time: 12.01, level: 0.45 } };
    const bench = await openBench({ dimensions: [close] });
    for (const name of ["front to rear, first end", "front to rear, second end"]) {
      const { width, height } = grip(bench, name).querySelector("rect")!.getBoundingClientRect();
      expect(width).toBeGreaterThanOrEqual(44);
      expect(height).toBeGreaterThanOrEqual(44);
    }
  });

  test("an end is dragged in time, told as it moves and once more when let go", async () => {
    const bench = await openBench({ dimensions: [delay] });
    drag(grip(bench, "front to rear, second end"), [xOf(14), 200], [xOf(16), 230]);
    await frames(2);
    const told = moves(bench.events);
    expect(told.at(-1)).toMatchObject({ part: "to", final: true, from: { time: 12 }, to: { level: 0.45 } });
    expect(told.at(-1)!.to.time).toBeCloseTo(16, 6);
    expect(told.filter((event) => event.final)).toHaveLength(1);
    expect(bench.views).toEqual([]);
  });

  test("its line is dragged across and keeps what is measured", async () => {
    const bench = await openBench({ dimensions: [delay] });
    drag(grip(bench, "front to rear: 2.0\u00a0s, 1.9 … 2.1"), [500, 200], [502, 260]);
    await frames(2);
    const last = moves(bench.events).at(-1)!;
    expect(last).toMatchObject({ part: "line", from: delay.from, to: delay.to });
    expect(last.place).toBeLessThan(0.6);
  });

  test("is stepped by arrow keys from sample to sample, and told as one change when the key is let go", async () => {
    const bench = await openBench({ dimensions: [delay] });
    // The front's samples lie 0.1 s apart, the rear has none here: the next one after 12 s is at 12.1 s.
    press(grip(bench, "front to rear, first end"), "ArrowRight");
    const told = moves(bench.events);
    expect(told[0]!.from.time).toBeCloseTo(12.1, 9);
    expect(told.map((event) => event.final)).toEqual([false, true]);
  });

  test("Enter asks for a value, c and x for a snap, p pins, Delete removes", async () => {
    const bench = await openBench({ dimensions: [delay] });
    const end = grip(bench, "front to rear, second end");
    for (const key of ["Enter", "c", "x", "p", "Delete"]) press(end, key);
    expect(bench.events).toEqual([
      { kind: "type", id: "delay", part: "to" },
      { kind: "snap", id: "delay", part: "to", snapTo: "crossing" },
      { kind: "snap", id: "delay", part: "to", snapTo: "extreme" },
      { kind: "pin", id: "delay" },
      { kind: "remove", id: "delay" },
    ]);
  });

  test("a touch on a time's value turns it into a frequency, and back", async () => {
    const bench = await openBench({ dimensions: [delay] });
    const tap = () => {
      const body = grip(bench, "front to rear: 2.0\u00a0s, 1.9 … 2.1");
      touch(body, "pointerdown", [500, 200]);
      touch(body, "pointerup", [500, 200]);
    };
    tap();
    // Closed form: 1/2 s, 1/2.1 s and 1/1.9 s are 0.5, 0.4762 and 0.5263 Hz.
    expect(texts(bench)).toEqual(["0.500\u00a0Hz", "0.476 … 0.527, front to rear"]);
    tap();
    expect(texts(bench)[0]).toBe("2.0\u00a0s");
  });

  test("keeps its focus while it moves", async () => {
    const bench = await openBench({ dimensions: [delay] });
    grip(bench, "front to rear, first end").focus();
    bench.set({ dimensions: [{ ...delay, from: { time: 12.5, level: 0.45 } }] });
    await frames(1);
    expect(document.activeElement?.getAttribute("aria-valuenow")).toBe("12.5");
  });

  test("a pinned one shows no ends until it is selected", async () => {
    const bench = await openBench({ dimensions: [{ ...delay, isCursor: false }] });
    expect(grip(bench, "front to rear, first end")).toBeNull();
    bench.set({ dimensions: [{ ...delay, isCursor: false }], selectedDimension: "delay" });
    await frames(1);
    expect(grip(bench, "front to rear, first end")).not.toBeNull();
  });

  test("a level pair moves along its levels", async () => {
    const level = { ...delay, kind: "level" as const, label: "swing", to: { time: 12, level: 0.6 }, place: 13 };
    const bench = await openBench({ dimensions: [{ ...level, reading: measured(0.15, [0.14, 0.16], "V") }] });
    press(grip(bench, "swing, second end"), "ArrowUp");
    const [first] = moves(bench.events);
    expect(first!.to.level).toBeGreaterThan(0.6);
    expect(first!.to.time).toBe(12);
  });
});

describe("tools", () => {
  test("a drag with the time pair sets both ends on one level", async () => {
    const bench = await openBench({ tool: "time-pair" });
    drag(bench.stack, [xOf(12), 200], [xOf(15), 150]);
    const [placed] = bench.events;
    if (placed?.kind !== "place") throw new Error("nothing placed");
    expect(placed.dimension).toMatchObject({ kind: "time", laneId: "o2" });
    expect(placed.dimension.from.time).toBeCloseTo(12, 6);
    expect(placed.dimension.to.time).toBeCloseTo(15, 6);
    expect(placed.dimension.to.level).toBe(placed.dimension.from.level);
    expect(bench.views).toEqual([]);
  });

  test("a tap with the level pair sets a pair ready to be dragged", async () => {
    const bench = await openBench({ tool: "level-pair" });
    touch(bench.stack, "pointerdown", [xOf(12), 200]);
    touch(bench.stack, "pointerup", [xOf(12), 200]);
    const [placed] = bench.events;
    if (placed?.kind !== "place") throw new Error("nothing placed");
    expect(placed.dimension.kind).toBe("level");
    expect(placed.dimension.to.level).not.toBe(placed.dimension.from.level);
  });

  test("span shades, spot names a place", async () => {
    const spans: unknown[] = [];
    const spots: unknown[] = [];
    const bench = await openBench({
      tool: "span",
      onSpan: (span) => spans.push(span),
      onSpot: (...spot) => spots.push(spot),
    });
    drag(bench.stack, [xOf(15), 100], [xOf(12), 100]);
    expect(spans).toHaveLength(1);
    const { from, to } = spans[0] as { from: number; to: number };
    expect([from, to].map((time) => Math.round(time * 1e6) / 1e6)).toEqual([12, 15]);
    bench.set({ tool: "spot" });
    touch(bench.stack, "pointerdown", [xOf(13), 100]);
    touch(bench.stack, "pointerup", [xOf(13), 100]);
    expect(spots).toHaveLength(1);
    expect(bench.events).toEqual([]);
  });
});

describe("readouts", () => {
  const at = (between: boolean) => [
    {
      time: 13,
      values: [
        { channelId: "front", value: 0.8, between },
        { channelId: "rear", value: null, between },
      ],
    },
  ];

  test("show each channel's value beside its trace, and none where there is none", async () => {
    const bench = await openBench({ readouts: at(false) });
    const shown = [...bench.container.querySelectorAll(".readout text")].map((text) => text.textContent);
    expect(shown).toHaveLength(1);
    expect(shown[0]).toMatch(/^0\.80*\sV$/);
  });

  test("are filled on a sample and hollow between two", async () => {
    const bench = await openBench({ readouts: at(false) });
    expect(bench.container.querySelectorAll(".readout-between")).toHaveLength(0);
    bench.set({ readouts: at(true) });
    await frames(1);
    expect(bench.container.querySelectorAll(".readout-between")).toHaveLength(1);
  });
});
