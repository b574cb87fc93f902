// Engines whose throttle was not recorded, or has no say: what else a foot moves tells a lean spell from a lift-off.

import { expect, test } from "vitest";
import { openBytes } from "../capture/open.ts";
import { findLiftOffs } from "../exhaust/make.ts";
import { random } from "../reference/recorders.ts";
import { textOf } from "./delays.ts";
import { type Logged, logOf } from "./log.ts";
import { drive, type Leg, someCar } from "./plant.ts";

const legs: readonly Leg[] = [
  { kind: "idle", seconds: 15 },
  { kind: "cruise", seconds: 40 },
  { kind: "creep", seconds: 14 },
  { kind: "cruise", seconds: 25 },
  { kind: "pull", seconds: 5 },
  { kind: "closing", seconds: 7 },
  { kind: "cruise", seconds: 25 },
];

/** Drives of 12 rows/s; valve lift in place of a throttle: it stands wide open and wanders. */
async function liftOffsOf(channels: readonly Logged[], number: number) {
  const made = drive(someCar(random(number), 0.5), legs, number);
  for (let i = 0; i < made.throttle.length; i++) made.throttle[i] = 78 + Math.sin(i / 900);
  const rule = { rows: 12, channels, turn: 1, between: "held", jitter: 0.1, noise: 0.004, quantum: 0.005 } as const;
  const text = textOf(logOf(made, rule, random(number)), rule);
  const read = await openBytes(new TextEncoder().encode(text), {});
  if (!read.ok) throw new Error(read.problem.what);
  return { events: findLiftOffs(read.value, 1), closing: made.closings[0]! };
}

test.each<[name: string, channels: readonly Logged[]]>([
  ["engine speed", ["engineSpeed", "front", "rear"]],
  ["road speed", ["roadSpeed", "front", "rear"]],
  ["air flow", ["airFlow", "front", "rear"]],
  ["a throttle that stands open, and both speeds", ["engineSpeed", "throttle", "roadSpeed", "front", "rear"]],
])("with %s a lean spell at steady speed is set aside, and a closing counts", async (_, channels) => {
  for (const number of [7003, 7007]) {
    const { events, closing } = await liftOffsOf(channels, number);
    // What moved while the car pulled away, or nothing but its road speed, tells nothing of the loop's own spells at idle.
    const told = channels.includes("engineSpeed") ? 0 : 20;
    const counted = events.filter(({ at, rejected }) => rejected === null && at > told);
    expect(counted.length).toBe(1);
    expect(Math.abs(counted[0]!.at - closing)).toBeLessThan(2);
  }
});
