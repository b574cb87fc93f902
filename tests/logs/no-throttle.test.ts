// Engines whose throttle was not recorded, or has no say: what else a foot moves tells a lean spell from a lift-off.

import { expect, test } from "vitest";
import { openBytes } from "../capture/open.ts";
import { findLiftOffs } from "../exhaust/make.ts";
import { logged as asked, fallsOf, foreignPlants, riddenBy } from "../judges/slow-logs.ts";
import { chanceOf } from "../judges/third-plant/chance.ts";
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

test("with two sensors alone a closing after a pull counts, and a lean spell of the mixture is called what it may be", async () => {
  for (const number of [7000, 7003, 7007]) {
    const { events, closing } = await liftOffsOf(["front", "rear"], number);
    const counted = events.filter(({ rejected }) => rejected === null);
    expect(counted.map(({ at }) => Math.abs(at - closing) < 2)).toEqual([true]);
    const creep = events.find(({ at }) => at > 50 && at < 60);
    expect(creep?.rejected).toMatch(/may be a lean spell/);
  }
});

// The foreign plants' sensors follow Nernst's law: in air they stand lower than in any mixture of the loop.
test.each(foreignPlants)(
  "with two sensors alone the cuts of the %s plant are told by how low the front stands",
  async (plant) => {
    const ridden = riddenBy(plant, 1);
    const rule = { channels: ["front", "rear"], answers: [0.04, 0.044], writes: "rounds", noise: 0 } as const;
    const text = asked(ridden, rule, chanceOf(`two sensors ${plant}`));
    const read = await openBytes(new TextEncoder().encode(text), {});
    if (!read.ok) throw new Error(read.problem.what);
    const events = findLiftOffs(read.value, 1);
    const falls = fallsOf(ridden);
    const found = falls.flatMap((fall) => events.find(({ at }) => Math.abs(at - fall.at) < 2.5) ?? []);
    expect(found.length).toBeGreaterThan(2);
    expect(found.filter(({ rejected }) => rejected?.includes("may be a lean spell"))).toEqual([]);
  },
);
