// Reading values by finger and by key: what a drag, a tap and a long press tell, the loupe, and the slider at the instant's foot.

import { cleanup } from "@solidjs/testing-library";
import { afterEach, describe, expect, test } from "vitest";
import { loupeBox, loupeSize } from "../../src/plot/lanes/Loupe.tsx";
import { gutter, margin } from "../../src/plot/stage/layout.ts";
import type { Readout } from "../../src/plot/stage/types.ts";
import { frames, openBench, press, touch, windows } from "./fixture.tsx";

afterEach(cleanup);

const xOf = (time: number) => gutter + ((time - 10) / 10) * (900 - gutter - margin);
const finger = { kind: "touch" } as const;

function dragFinger(stack: HTMLElement, from: readonly [number, number], to: readonly [number, number]) {
  touch(stack, "pointerdown", from, finger);
  touch(stack, "pointermove", to, finger);
}

const readout = (kind: "held" | "pointer", time: number, value: number | null): Readout => ({
  kind,
  time,
  values: [{ channelId: "front", value, between: false }],
});

describe("a finger", () => {
  test("dragged along the lanes reads where it is, and the view stays", async () => {
    const bench = await openBench();
    dragFinger(bench.stack, [xOf(12), 100], [xOf(16), 100]);
    await frames(2);
    expect(bench.kept.at(-1)).toBeCloseTo(16, 6);
    expect(bench.views).toEqual([]);
    expect(bench.fingers).toEqual(["o2"]);
    touch(bench.stack, "pointerup", [xOf(16), 100], finger);
    await frames(2);
    expect(bench.fingers).toEqual(["o2", null]);
    expect(bench.cursors).toEqual([]);
  });

  test("dragged along the time axis pans", async () => {
    const bench = await openBench();
    dragFinger(bench.stack, [xOf(16), 490], [xOf(12), 490]);
    await frames(2);
    expect(bench.view().from).toBeCloseTo(14, 6);
    expect(bench.kept).toEqual([]);
  });

  test("that taps reads there", async () => {
    const bench = await openBench();
    touch(bench.stack, "pointerdown", [xOf(13), 100], finger);
    touch(bench.stack, "pointerup", [xOf(13), 100], finger);
    await frames(2);
    expect(bench.kept.at(-1)).toBeCloseTo(13, 6);
  });

  test("kept down holds the instant, and reads on from there", async () => {
    const bench = await openBench();
    touch(bench.stack, "pointerdown", [xOf(13), 100], finger);
    await expect.poll(() => bench.held.length).toBe(1);
    expect(bench.held[0]).toBeCloseTo(13, 6);
    touch(bench.stack, "pointermove", [xOf(15), 100], finger);
    touch(bench.stack, "pointerup", [xOf(15), 100], finger);
    await frames(2);
    expect(bench.kept.at(-1)).toBeCloseTo(15, 6);
    expect(bench.held).toHaveLength(1);
  });
});

test("a mouse still reads where it hovers, pans by a drag, and leaves nothing behind", async () => {
  const bench = await openBench();
  touch(bench.stack, "pointermove", [xOf(12), 100]);
  await frames(2);
  expect(bench.cursors.at(-1)).toBeCloseTo(12, 6);
  touch(bench.stack, "pointerdown", [xOf(12), 100]);
  touch(bench.stack, "pointermove", [xOf(14), 100]);
  await frames(2);
  expect(bench.view().from).toBeCloseTo(8, 6);
  expect(bench.kept).toEqual([]);
});

describe("the loupe", () => {
  test("draws what it is given, while a finger reads in its lane", async () => {
    const look = { laneId: "o2", span: { from: 15.5, to: 16.5 }, windows };
    const bench = await openBench({ loupe: look });
    expect(bench.container.querySelector(".loupe")).toBe(null);
    dragFinger(bench.stack, [xOf(12), 200], [xOf(16), 200]);
    await frames(2);
    expect(bench.container.querySelector(".loupe text")!.textContent).toContain("1\u00a0s wide");
    const { left, right } = bench.container.querySelector(".loupe .ink-front")!.getBoundingClientRect();
    expect(right - left).toBeGreaterThan(loupeSize.width);
    touch(bench.stack, "pointerup", [xOf(16), 200], finger);
    await frames(2);
    expect(bench.container.querySelector(".loupe")).toBe(null);
  });

  test("keeps clear of the fingertip and inside the lanes, wherever the finger is", () => {
    const size = { width: 376, height: 400 };
    for (let x = gutter; x <= size.width; x += 20) {
      for (let y = 0; y <= size.height; y += 20) {
        const box = loupeBox({ x, y }, size);
        expect(box.left).toBeGreaterThanOrEqual(0);
        expect(box.right).toBeLessThanOrEqual(size.width);
        expect(box.top).toBeGreaterThanOrEqual(0);
        const isBelow = y - box.bottom >= 20;
        const isBeside = x - box.right >= 20 || box.left - x >= 20;
        expect(isBelow || isBeside, `${x}, ${y}`).toBe(true);
      }
    }
  });
});

describe("values against a held instant", () => {
  test("are told with their sign", async () => {
    const bench = await openBench({ readouts: [readout("held", 12, 0.2), readout("pointer", 14, 0.75)] });
    await frames(2);
    const texts = [...bench.container.querySelectorAll(".readout text")].map((text) => text.textContent);
    expect(
      texts.some((text) => /^0\.75\d*\sV\s+\(\+0\.55\d*\sV\)$/.test(text!)),
      texts.join("; "),
    ).toBe(true);
  });

  test("are told in the same digits where the lane is low", async () => {
    const bench = await openBench({ readouts: [readout("held", 12, 0.2), readout("pointer", 14, 0.7512)] });
    bench.stack.parentElement!.style.height = "200px";
    await frames(3);
    const texts = [...bench.container.querySelectorAll(".readout text")].map((text) => text.textContent);
    expect(texts).toContain("0.751\u00a0V  (+0.551\u00a0V)");
  });

  test("a value that is missing has no difference", async () => {
    const bench = await openBench({ readouts: [readout("held", 12, null), readout("pointer", 14, 0.75)] });
    await frames(2);
    expect(bench.container.querySelector(".readout text")!.textContent).toMatch(/^0\.75\d*\sV$/);
  });
});

describe("the slider at the instant's foot", () => {
  const slider = (container: Element) => container.querySelector<SVGGElement>(".instant-grip")!;

  test("tells every value, and goes on by samples", async () => {
    const bench = await openBench({ instant: 14, readouts: [readout("pointer", 14, 0.75)] });
    expect(slider(bench.container).getAttribute("aria-valuetext")).toMatch(/^14\.\d+\ss: front 0\.75/);
    press(slider(bench.container), "ArrowRight");
    expect(bench.kept.at(-1)).toBeCloseTo(14.1, 6);
    press(slider(bench.container), "ArrowLeft", { shiftKey: true });
    // Ten samples back, of the front every 0.1 s and of the rear every 0.25 s.
    expect(bench.kept.at(-1)).toBeCloseTo(13.2, 6);
  });

  test("holds by Enter, and goes by Delete", async () => {
    const bench = await openBench({ instant: 14 });
    press(slider(bench.container), "Enter");
    expect(bench.held).toEqual([14]);
    press(slider(bench.container), "Delete");
    expect(bench.cursors).toEqual([null]);
  });
});
