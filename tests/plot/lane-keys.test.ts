// Names that stand in rows below each other keep a strip of the lane free of traces.

import { expect, test } from "vitest";
import { keyRows } from "../../src/plot/stage/lane-keys.ts";
import { plotBox } from "../../src/plot/stage/layout.ts";
import type { LaneLook } from "../../src/plot/stage/types.ts";

const line = (id: string, of?: string) => ({
  ...{ form: "line", source: "own", channelId: id, label: id, look: "front" },
  ...(of ? { of, isBehind: true } : {}),
});
const lane = { id: "a", title: "A", unit: "V", guides: [], share: 1, scale: "fit" };
const laneOf = (...layers: unknown[]) => ({ ...lane, layers }) as unknown as LaneLook;

test("two names stand side by side on a phone, a reference below them; all side by side where there is room", () => {
  const compared = laneOf(line("front"), line("rear"), line("front'", "Sound"), line("rear'", "Sound"));
  expect([keyRows(compared, 310), keyRows(compared, 700), keyRows(laneOf(line("front"), line("rear")), 310)]).toEqual([
    2, 1, 1,
  ]);
});

test("traces keep off as many rows as leave a lane tall", () => {
  const tall = { left: 0, right: 300, top: 10, bottom: 200 };
  expect(plotBox(tall, 2).top - plotBox(tall, 1).top).toBe(plotBox(tall, 1).top - tall.top);
  const low = { ...tall, bottom: 60 };
  expect(plotBox(low, 2).top).toBe(low.top);
});
