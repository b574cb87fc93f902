// Back and forward through views: where the view rested, apart from the frames on the way.

import { describe, expect, test } from "vitest";
import { moved, noSteps, stepped } from "../../src/app/core/view-steps.ts";

const span = (from: number) => ({ from, to: from + 10 });

describe("the views of a recording", () => {
  test("movements close together are one step, back to where they began", () => {
    let steps = moved(noSteps, span(0), 1000);
    for (let i = 1; i < 40; i++) steps = moved(steps, span(i), 1000 + 16 * i);
    const back = stepped(steps, span(40), "back")!;
    expect(back.view).toEqual(span(0));
    expect(stepped(back.steps, back.view, "back")).toBe(null);
    expect(stepped(back.steps, back.view, "forward")!.view).toEqual(span(40));
  });

  test("back, back and forward again come to the same places", () => {
    const steps = moved(moved(noSteps, span(0), 0), span(5), 5000);
    const once = stepped(steps, span(9), "back")!;
    const twice = stepped(once.steps, once.view, "back")!;
    expect([once.view, twice.view]).toEqual([span(5), span(0)]);
    const again = stepped(twice.steps, twice.view, "forward")!;
    expect(stepped(again.steps, again.view, "forward")!.view).toEqual(span(9));
  });

  test("a new movement ends the way forward", () => {
    const steps = moved(noSteps, span(0), 0);
    const back = stepped(steps, span(5), "back")!;
    const on = moved(back.steps, back.view, 100);
    expect(stepped(on, span(7), "forward")).toBe(null);
    expect(stepped(on, span(7), "back")!.view).toEqual(span(0));
  });

  test("holds no more than it can use", () => {
    let steps = noSteps;
    for (let i = 0; i < 500; i++) steps = moved(steps, span(i), 1000 * i);
    expect(steps.past.length).toBeLessThanOrEqual(50);
    expect(steps.past.at(-1)).toEqual(span(499));
  });
});
