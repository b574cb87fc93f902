// Channels of two recordings asked for as if they were one: each worker answer comes back on the bench's time.

import { expect, test } from "vitest";
import { type AxisService, onOneAxis } from "../../src/app/core/on-one-axis.ts";
import { asRead } from "../../src/capture/model/take.ts";
import { companionChannel } from "../../src/job/edits/companions.ts";

/** Two recordings with a sample each second; the values are their own seconds, the companion's plus 100. */
const worker: AxisService = {
  async window({ take: { captureId }, channelIds, span }) {
    const times = Float64Array.from({ length: 61 }, (_, t) => t).filter((t) => t >= span.from && t <= span.to);
    const values = times.map((t) => (captureId === "other" ? 100 + t : t));
    return channelIds.map((channelId) => ({ channelId, times, values, dense: false }));
  },
  valuesAt: async ({ captureId }, ids, time) =>
    ids.map((channelId) => ({ channelId, value: captureId === "other" ? 100 + time : time, between: false })),
  snap: async ({ take: { captureId }, channelIds, near }) => {
    if (channelIds.length === 0) return null;
    const time = captureId === "other" ? Math.round(near) : Math.round(near) + 0.4;
    return { channelId: channelIds[0]!, time, value: 0, low: time - 0.1, high: time + 0.1 };
  },
};
const mine = asRead("mine", {});
const theirs = companionChannel("other", "c1");
const axis = onOneAxis(worker, () => [{ captureId: "other", summary: { take: asRead("other", {}) }, by: 20 }]);

test("windows: the companion's samples are its own, told later by the shift and none made", async () => {
  const request = { take: mine, channelIds: ["c1", theirs], span: { from: 25, to: 27 }, width: 100 };
  const [own, other] = await axis.window(request);
  expect([...own!.times]).toEqual([25, 26, 27]);
  expect(other!.channelId).toBe(theirs);
  expect([...other!.times]).toEqual([25, 26, 27]);
  expect([...other!.values]).toEqual([105, 106, 107]);
});

test("values: a cursor reads both at one instant", async () => {
  const values = await axis.valuesAt(mine, ["c1", theirs], 30);
  expect(values.map(({ channelId, value }) => [channelId, value])).toEqual([
    ["c1", 30],
    [theirs, 110],
  ]);
});

test("snapping goes to the nearer of the two, bounds and all", async () => {
  const wish = { near: 30, within: 2, to: "crossing", level: 0.45 } as const;
  const found = await axis.snap({ take: mine, channelIds: ["c1", theirs], ...wish });
  expect(found).toMatchObject({ channelId: theirs, time: 30, low: 29.9, high: 30.1 });
  expect((await axis.snap({ take: mine, channelIds: ["c1"], ...wish }))!.channelId).toBe("c1");
});
