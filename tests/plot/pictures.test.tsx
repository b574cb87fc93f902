// The small pictures: lift-offs laid over each other, activity against air flow; and bands below the traces.

import { cleanup, render } from "@solidjs/testing-library";
import axe from "axe-core";
import { afterEach, describe, expect, test } from "vitest";
import { EventOverlay } from "../../src/plot/pictures/EventOverlay.tsx";
import { FlowPicture } from "../../src/plot/pictures/FlowPicture.tsx";
import type { EventTraces, FlowPoint } from "../../src/plot/pictures/picture-types.ts";
import { gutter, margin } from "../../src/plot/stage/layout.ts";
import { atMost, measured, notResolvable } from "../../src/signal/numbers/reading.ts";
import { dress, frames, lanes, openBench } from "./fixture.tsx";

afterEach(cleanup);

const fall = (at: number) => ({
  times: Float64Array.of(-1, at, at + 0.01, 3),
  values: Float64Array.of(0.9, 0.9, 0.05, 0.05),
  dense: false,
});
const event = (id: string, delay: number): EventTraces => ({
  id,
  label: id,
  front: fall(0),
  rear: fall(delay),
  delay: measured(delay, [delay - 0.1, delay + 0.1], "s"),
});

async function openOverlay(selected: string | null) {
  dress();
  const chosen: string[] = [];
  const { container } = render(() => (
    <div style={{ width: "600px", height: "360px" }}>
      <EventOverlay
        events={[event("first", 0.6), event("second", 1.2)]}
        span={{ from: -1, to: 3 }}
        scale="fit"
        unit="V"
        guides={[0.45]}
        level={0.45}
        selected={selected}
        onSelect={(id) => chosen.push(id)}
      />
    </div>
  ));
  await frames(2);
  return { container, chosen };
}

describe("lift-offs laid over each other", () => {
  test("each is drawn and named, the chosen one with its delay, the others step back", async () => {
    const { container } = await openOverlay("second");
    expect(container.querySelectorAll(".event-line")).toHaveLength(4);
    expect(container.querySelectorAll(".event-behind")).toHaveLength(1);
    expect(container.querySelector(".dimension-value")?.textContent).toBe("1.2\u00a0s");
    expect(container.querySelector("title")?.textContent).toContain("first, delay 0.6\u00a0s, 0.5 … 0.7");
  });

  test("one is chosen by its line or its button", async () => {
    const { container, chosen } = await openOverlay(null);
    container.querySelectorAll<HTMLElement>("button")[1]!.click();
    container.querySelector(".event-touch")!.dispatchEvent(new MouseEvent("click", { bubbles: true }));
    expect(chosen).toEqual(["second", "first"]);
  });
});

const point = (id: string, flow: number, more: Partial<FlowPoint> = {}): FlowPoint => ({
  id,
  label: id,
  flow: measured(flow, [flow - 1, flow + 1], "g/s"),
  activity: measured(0.4, [0.3, 0.5], "1"),
  stretch: "cruise",
  ...more,
});

async function openFlow() {
  dress();
  const chosen: string[] = [];
  const { container } = render(() => (
    <div style={{ width: "600px", height: "360px" }}>
      <FlowPicture
        points={[
          point("idle", 3),
          point("load", 40, { activity: atMost(0.5, "1") }),
          point("lost", 20, { activity: notResolvable("1", "too slow") }),
        ]}
        flowTitle="Air flow, g/s"
        activityTitle="Rear swing over front swing"
        guides={[{ level: 1, label: "as active as the front" }]}
        selected={null}
        onSelect={(id) => chosen.push(id)}
      />
    </div>
  ));
  await frames(2);
  return { container, chosen };
}

describe("activity against air flow", () => {
  test("draws what was resolved, with its bounds, and says what was not", async () => {
    const { container } = await openFlow();
    expect(container.querySelectorAll(".flow-dot")).toHaveLength(2);
    expect(container.querySelectorAll(".flow-bounded")).toHaveLength(1);
    expect(container.textContent).toContain("(1 not resolvable)");
    // Bounds 0.3 … 0.5: the bar runs from the low one upwards, to a smaller y.
    const bars = container.querySelector(".flow-bars")!.getAttribute("d")!;
    const [, low, high] = /H[\d.]+M[\d.]+ ([\d.]+)V([\d.]+)M/.exec(bars)!;
    expect(Number(high)).toBeLessThan(Number(low));
  });

  test("each point is a button of at least 44 px that says its readings", async () => {
    const { container, chosen } = await openFlow();
    const button = container.querySelector("button")!;
    expect(button.getAttribute("aria-label")).toBe("idle: 0.4, 0.3 … 0.5 at 3\u00a0g/s, 2 … 4");
    expect(button.getBoundingClientRect().width).toBeGreaterThanOrEqual(44);
    button.click();
    expect(chosen).toEqual(["idle"]);
  });

  test("axe finds nothing serious in either picture", async () => {
    for (const { container } of [await openFlow(), await openOverlay("first")]) {
      const { violations } = await axe.run(container);
      const grave = violations.filter(({ impact }) => impact === "serious" || impact === "critical");
      expect(grave.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
    }
  });
});

test("a band is pale with a gap where nothing is known", async () => {
  const times = Float64Array.of(10, 12, 14, 16, 18, 20);
  const band = {
    form: "band" as const,
    source: "usual",
    label: "Usual",
    look: "rear" as const,
    times,
    low: Float64Array.of(0.4, 0.4, Number.NaN, Number.NaN, 0.4, 0.4),
    middle: Float64Array.of(0.5, 0.5, Number.NaN, Number.NaN, 0.5, 0.5),
    high: Float64Array.of(0.6, 0.6, Number.NaN, Number.NaN, 0.6, 0.6),
  };
  const { container } = await openBench({ lanes: [{ ...lanes[0]!, layers: [...lanes[0]!.layers, band] }, lanes[1]!] });
  const canvas = container.querySelector("canvas")!;
  const paleBlue = (time: number) => {
    const x = (gutter + ((time - 10) / 10) * (900 - gutter - margin)) * devicePixelRatio;
    const { data } = canvas.getContext("2d")!.getImageData(Math.round(x), 0, 1, canvas.height);
    let count = 0;
    for (let i = 0; i < data.length; i += 4)
      if (data[i + 2]! > 200 && data[i]! < 60 && data[i + 3]! > 20 && data[i + 3]! < 90) count++;
    return count;
  };
  expect(paleBlue(11)).toBeGreaterThan(20);
  expect(paleBlue(15)).toBe(0);
});
