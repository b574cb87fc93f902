import { describe, expect, test } from "vitest";
import { within } from "../../src/app/core/view.ts";
import { readingsCsv } from "../../src/app/export/readings-file.ts";
import { measured, notResolvable } from "../../src/signal/numbers/reading.ts";

describe("readings as CSV", () => {
  // RFC 4180: CRLF, quotes around a comma, an empty cell where nothing is known.
  test("has one row each, with bounds, grade and reason", () => {
    const reading = measured(0.05, [0.04, 0.06], "s");
    const slow = notResolvable("1", "too slow, 200 samples/s would do");
    const activity = { lag: reading, crossingRatio: slow } as never;
    const inSpan = { span: { from: 1, to: 2 }, sensors: { front: null, rear: null }, activity, evidence: {} };
    expect(readingsCsv(inSpan, null).split("\r\n")).toEqual([
      "reading,from_s,to_s,value,low,high,unit,grade,because",
      "activity.lag,1,2,0.05,0.04,0.06,s,measured,",
      'activity.crossingRatio,1,2,,,,1,not-resolvable,"too slow, 200 samples/s would do"',
      "",
    ]);
  });
});

describe("a view", () => {
  test("stays inside the recording and keeps its length where it can", () => {
    const whole = { from: 0, to: 100 };
    expect(within({ from: -5, to: 5 }, whole)).toEqual({ from: 0, to: 10 });
    expect(within({ from: 95, to: 105 }, whole)).toEqual({ from: 90, to: 100 });
    expect(within({ from: -50, to: 500 }, whole)).toEqual(whole);
  });
});
