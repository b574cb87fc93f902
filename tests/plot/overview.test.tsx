// The strip of the whole capture: the frame is moved and stretched, stretches are touched.

import { cleanup, render } from "@solidjs/testing-library";
import axe from "axe-core";
import { createSignal } from "solid-js";
import { afterEach, describe, expect, test } from "vitest";
import { linesOf } from "../../src/drawing/layer.ts";
import type { Stretch } from "../../src/exhaust/terms/analysis.ts";
import { Overview } from "../../src/plot/overview/Overview.tsx";
import { gutter, margin } from "../../src/plot/stage/layout.ts";
import type { View } from "../../src/plot/stage/types.ts";
import { drag, dress, frames, lanes, press, touch, whole, windowOf, windows } from "./fixture.tsx";

afterEach(cleanup);

const plotWidth = 900 - gutter - margin;
const xOf = (time: number) => gutter + (time / 40) * plotWidth;
const nothing = { activity: null, fit: false, because: "", front: null, trims: null, origin: "found" } as const;
const stretches: readonly Stretch[] = [
  { ...nothing, kind: "cold", readAs: "cold", from: 0, to: 20 },
  { ...nothing, kind: "idle", readAs: "idle", from: 20, to: 40 },
];

async function openOverview(shown = windows) {
  dress();
  const [view, setView] = createSignal<View>({ from: 10, to: 20 });
  const touched: Stretch[] = [];
  const { container } = render(() => (
    <div style={{ width: "900px", height: "92px" }}>
      <Overview
        whole={whole}
        windows={shown}
        traces={linesOf(lanes[0]!)}
        view={view()}
        onView={setView}
        stretches={stretches}
        onStretch={(stretch) => touched.push(stretch)}
        stretchName={(kind) => kind}
        events={[15]}
      />
    </div>
  ));
  await frames(2);
  const part = (name: string) => container.querySelector(`[aria-label="${name}"]`)!;
  return { container, view, touched, part };
}

describe("the overview", () => {
  test("draws front and rear with their gaps, and names stretches", async () => {
    const { container } = await openOverview();
    const lines = [...container.querySelectorAll(".overview-line")];
    expect(lines).toHaveLength(2);
    // The rear lies behind; it has one gap, so the pen comes down twice.
    expect(lines[0]!.getAttribute("d")!.split("M")).toHaveLength(3);
    expect([...container.querySelectorAll("button")].map((button) => button.textContent)).toEqual(["cold", "idle"]);
  });

  test("draws a crowded recording as filled outlines", async () => {
    const crowded = new Map([["front", windowOf("front", 0.01, (time) => 0.5 + 0.4 * Math.sin(9 * time))]]);
    const { container } = await openOverview(crowded);
    const line = container.querySelector(".overview-line")!;
    expect(getComputedStyle(line).fill).toBe("rgb(255, 0, 0)");
    expect(getComputedStyle(line).stroke).toBe("none");
  });

  test("the frame is dragged, by pointer and by keys", async () => {
    const { part, view } = await openOverview();
    drag(part("View"), [xOf(15), 60], [xOf(20), 60]);
    await frames(2);
    expect(view().from).toBeCloseTo(15, 6);
    expect(view().to).toBeCloseTo(25, 6);
    press(part("View"), "ArrowLeft");
    await frames(2);
    expect(view().from).toBeLessThan(15);
    expect(view().to - view().from).toBeCloseTo(10, 6);
  });

  test("its edges are dragged, and stop at the capture's ends", async () => {
    const { part, view } = await openOverview();
    drag(part("End of the view"), [xOf(20), 60], [xOf(90), 60]);
    await frames(2);
    expect(view().from).toBeCloseTo(10, 6);
    expect(view().to).toBeCloseTo(40, 6);
    press(part("Start of the view"), "ArrowRight");
    await frames(2);
    expect(view().from).toBeGreaterThan(10);
  });

  test("a press elsewhere brings the view there", async () => {
    const { container, view } = await openOverview();
    const strip = container.querySelector(".overview-press")!;
    touch(strip, "pointerdown", [xOf(30), 60]);
    touch(strip, "pointerup", [xOf(30), 60]);
    await frames(2);
    expect(view().from).toBeCloseTo(25, 1);
  });

  test("two taps on the frame show all", async () => {
    const { part, view } = await openOverview();
    for (let i = 0; i < 2; i++) {
      touch(part("View"), "pointerdown", [xOf(15), 60]);
      touch(part("View"), "pointerup", [xOf(15), 60]);
    }
    await frames(2);
    expect(view()).toEqual(whole);
  });

  test("a touched stretch is told", async () => {
    const { container, touched } = await openOverview();
    container.querySelectorAll("button")[1]!.click();
    expect(touched).toEqual([stretches[1]]);
  });

  test("axe finds nothing serious", async () => {
    const { container } = await openOverview();
    const { violations } = await axe.run(container);
    const grave = violations.filter(({ impact }) => impact === "serious" || impact === "critical");
    expect(grave.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  });
});
