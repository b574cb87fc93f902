// What the hand asks for between two frames is told once, in the order in which it was done.

import { expect, test } from "vitest";
import { makeAsking } from "../../src/plot/hands/asking.ts";

const nextFrame = () => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));

function slidden() {
  const told: [number, boolean][] = [];
  const asking = makeAsking({
    view: { from: 0, to: 1 },
    onView: () => {},
    onSlide: (by, isFinal) => told.push([by, isFinal]),
  });
  return { told, asking };
}

test("a slide that is let go before the frame ends with its last movement", async () => {
  const { told, asking } = slidden();
  asking.slide(1);
  await nextFrame();
  asking.slide(0.25);
  asking.slide(0.25);
  asking.slide(0, true);
  await nextFrame();
  expect(told).toEqual([
    [1, false],
    [0.5, true],
  ]);
});

test("one that is let go at rest is told as ended", async () => {
  const { told, asking } = slidden();
  asking.slide(1);
  await nextFrame();
  asking.slide(0, true);
  await nextFrame();
  expect(told).toEqual([
    [1, false],
    [0, true],
  ]);
});
