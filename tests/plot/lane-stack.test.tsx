// The lanes on a real canvas: what is drawn, and what hands and keys do to the view.

import { cleanup } from "@solidjs/testing-library";
import axe from "axe-core";
import { afterEach, describe, expect, test } from "vitest";
import { gutter, margin } from "../../src/plot/stage/layout.ts";
import { delay, frames, lanes, openBench, press, touch, whole, windowOf, windows } from "./fixture.tsx";

afterEach(cleanup);

const plotWidth = 900 - gutter - margin;
const xOf = (time: number, from = 10, to = 20) => gutter + ((time - from) / (to - from)) * plotWidth;

/** Colours found in one column of a lane's canvas, as "r,g,b". */
function columnColours(container: Element, lane: number, x: number): Set<string> {
  const canvas = container.querySelectorAll("canvas")[lane]!;
  const { data } = canvas.getContext("2d")!.getImageData(Math.round(x * devicePixelRatio), 0, 1, canvas.height);
  const found = new Set<string>();
  for (let i = 0; i < data.length; i += 4) {
    if (data[i + 3] === 255) found.add(`${data[i]},${data[i + 1]},${data[i + 2]}`);
  }
  return found;
}
const red = "255,0,0";
const blue = "0,0,255";

describe("what is drawn", () => {
  test("each channel by its own stamps, in its colour", async () => {
    const { container } = await openBench();
    const colours = columnColours(container, 0, xOf(17));
    expect(colours.has(red)).toBe(true);
    expect(colours.has(blue)).toBe(true);
  });

  test("a gap in the data is a gap in the line", async () => {
    const { container } = await openBench();
    const colours = columnColours(container, 0, xOf(12.3));
    expect(colours.has(red)).toBe(true);
    expect(colours.has(blue)).toBe(false);
  });

  test("crowded windows keep their gaps too", async () => {
    const crowded = new Map(windows).set(
      "rear",
      windowOf("rear", 0.005, (time) => (time > 12 && time < 13 ? Number.NaN : 0.5 + 0.3 * Math.sin(90 * time))),
    );
    const { container } = await openBench({ windows: crowded });
    expect(columnColours(container, 0, xOf(12.5)).has(blue)).toBe(false);
    expect(columnColours(container, 0, xOf(14.5)).has(blue)).toBe(true);
  });

  test("titles, units and channel names stand in the lane", async () => {
    const { container } = await openBench();
    const heads = [...container.querySelectorAll(".lane-head")].map((head) => head.textContent);
    expect(heads[0]).toBe("Oxygen sensors, Vfrontrear");
    expect(heads[1]).toBe("Throttle, %");
  });

  test("follows the theme's colours", async () => {
    const { container } = await openBench();
    document.documentElement.style.setProperty("--front", "#00ff00");
    await frames(3);
    expect(columnColours(container, 0, xOf(17)).has("0,255,0")).toBe(true);
  });
});

describe("the scales", () => {
  test("a fitted one holds what the view holds, and follows it", async () => {
    const bench = await openBench();
    const [low, high] = bench.scales.at(-1)!.get("throttle")!;
    expect(low).toBeLessThanOrEqual(10);
    expect(high).toBeGreaterThanOrEqual(20);
    expect(high - low).toBeLessThan(20);
    press(bench.stack, "End");
    await frames(3);
    const after = bench.scales.at(-1)!.get("throttle")!;
    expect(after[0]).toBeGreaterThan(20);
    expect(after[1]).toBeGreaterThanOrEqual(40);
  });

  test("a held one stays", async () => {
    const held = lanes.map((lane) => (lane.id === "throttle" ? { ...lane, scale: [0, 100] as const } : lane));
    const bench = await openBench({ lanes: held });
    press(bench.stack, "End");
    await frames(3);
    expect(bench.scales.at(-1)!.get("throttle")).toEqual([0, 100]);
  });
});

describe("the view", () => {
  test("is zoomed by the wheel about the pointer, and told once per frame", async () => {
    const bench = await openBench();
    const box = bench.stack.getBoundingClientRect();
    for (let i = 0; i < 10; i++) {
      const options = {
        deltaY: -60,
        clientX: box.left + xOf(12),
        clientY: box.top + 100,
        bubbles: true,
        cancelable: true,
      };
      bench.stack.dispatchEvent(new WheelEvent("wheel", options));
    }
    expect(bench.views).toHaveLength(0);
    await frames(2);
    expect(bench.views).toHaveLength(1);
    const { from, to } = bench.view();
    expect(to - from).toBeLessThan(5);
    expect((12 - from) / (to - from)).toBeCloseTo(0.2, 2);
  });

  test("is panned by a drag, and kept within the capture", async () => {
    const bench = await openBench();
    touch(bench.stack, "pointerdown", [500, 100]);
    touch(bench.stack, "pointermove", [500 - plotWidth / 2, 100]);
    await frames(2);
    expect(bench.view().from).toBeCloseTo(15, 6);
    touch(bench.stack, "pointermove", [500 + 3 * plotWidth, 100]);
    touch(bench.stack, "pointerup", [500 + 3 * plotWidth, 100]);
    await frames(2);
    expect(bench.view()).toEqual({ from: 0, to: 10 });
  });

  test("is pinched by two fingers; the instants under them stay under them", async () => {
    const bench = await openBench();
    const [a, b] = [
      { id: 11, kind: "touch" },
      { id: 12, kind: "touch" },
    ] as const;
    touch(bench.stack, "pointerdown", [xOf(14), 100], a);
    touch(bench.stack, "pointerdown", [xOf(16), 120], b);
    touch(bench.stack, "pointermove", [xOf(12), 100], a);
    touch(bench.stack, "pointermove", [xOf(18), 120], b);
    await frames(2);
    const { from, to } = bench.view();
    expect(to - from).toBeCloseTo(10 / 3, 1);
    expect((from + to) / 2).toBeCloseTo(15, 1);
    touch(bench.stack, "pointerup", [xOf(12), 100], a);
    touch(bench.stack, "pointermove", [xOf(10), 120], b);
    await frames(2);
    expect(bench.view()).toEqual({ from, to });
  });

  test("is moved by keys: arrows, plus, minus, Home, End, 0", async () => {
    const bench = await openBench();
    const viewAfter = async (key: string) => {
      press(bench.stack, key);
      await frames(2);
      return bench.view();
    };
    expect((await viewAfter("ArrowRight")).from).toBeGreaterThan(10);
    const zoomed = await viewAfter("+");
    expect(zoomed.to - zoomed.from).toBeLessThan(10);
    expect((await viewAfter("Home")).from).toBe(0);
    expect((await viewAfter("End")).to).toBe(40);
    expect(await viewAfter("0")).toEqual(whole);
  });

  test("shows all after a double tap", async () => {
    const bench = await openBench();
    for (let i = 0; i < 2; i++) {
      touch(bench.stack, "pointerdown", [400, 100], { kind: "touch" });
      touch(bench.stack, "pointerup", [400, 100], { kind: "touch" });
    }
    await frames(2);
    expect(bench.view()).toEqual(whole);
  });

  test("is left alone by a press on a lane's button", async () => {
    const bench = await openBench({ laneTools: () => <button type="button">Hold</button> });
    const button = bench.container.querySelector("button")!;
    touch(button, "pointerdown", [800, 20]);
    touch(bench.stack, "pointermove", [600, 20]);
    await frames(2);
    expect(bench.views).toEqual([]);
  });

  test("a tap tells where it was", async () => {
    const bench = await openBench();
    touch(bench.stack, "pointerdown", [xOf(13), 100], { kind: "touch" });
    touch(bench.stack, "pointerup", [xOf(13), 100], { kind: "touch" });
    await frames(2);
    expect(bench.kept.at(-1)).toBeCloseTo(13, 6);
  });
});

test("axe finds nothing serious with a dimension selected and a span shaded", async () => {
  const { container } = await openBench({
    dimensions: [delay],
    selectedDimension: "delay",
    span: { from: 16, to: 17 },
    onSpan: () => {},
  });
  const { violations } = await axe.run(container);
  const grave = violations.filter(({ impact }) => impact === "serious" || impact === "critical");
  expect(grave.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
});
