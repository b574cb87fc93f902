// Of more lanes than any screen has room for the first are drawn, and the number of the others is told.

import { expect, test } from "vitest";
import { laneLooks } from "../../src/app/lanes/lane-looks.ts";
import { defaultBench } from "../../src/job/edits/bench.ts";
import { lanesLeft, mostLanesDrawn, visibleLanes } from "../../src/job/edits/lanes.ts";
import { summary } from "./fake-service.ts";

const channels = Array.from({ length: 5_000 }, (_, i) => ({
  ...summary.channels[2]!,
  ...{ id: `c${i + 2}`, name: `Column ${i}`, role: "other" as const },
}));
const all = { ...defaultBench(channels), hidden: [] };

test("five thousand lanes are not drawn at once, none is lost, and what finds no room is told", () => {
  expect(all.lanes).toHaveLength(5_000);
  expect(visibleLanes(all)).toHaveLength(mostLanesDrawn);
  expect(lanesLeft(all)).toBe(5_000 - mostLanesDrawn);
  const looks = laneLooks(all, { summary: { ...summary, channels }, companions: [] }, { switchLevel: 0.45 });
  expect(looks).toHaveLength(mostLanesDrawn);
});

test("hidden ones make room for the next", () => {
  const hidden = channels.slice(0, 4_990).map(({ id }) => id);
  expect(visibleLanes({ ...all, hidden }).map(({ channelIds }) => channelIds[0])).toEqual(
    channels.slice(4_990).map(({ id }) => id),
  );
  expect(lanesLeft({ ...all, hidden })).toBe(0);
});
