// How a driver goes about it, and what his engine lets him: from a steady cruise to stop and go.

import type { Phase } from "../car.ts";
import type { Random } from "../random.ts";

/** "bay": as the recording guide asks. "road": town, cruise and pulls mixed. The rest hold one thing only. */
export const driveStyles = ["bay", "road", "cruise", "pulls", "town"] as const;
export type DriveStyle = (typeof driveStyles)[number];

export interface WideManners {
  /** km/h per 1/min, from the first gear up. */
  readonly gears: readonly number[];
  readonly idleSpeed: number;
  readonly idleFilling: number;
  /** %, closed; and how much it opens for each share of filling. Without a throttle: always so far, and 0. */
  readonly closed: number;
  readonly opens: number;
  readonly cruiseSpeed: number;
  readonly cruiseFilling: number;
  /** 1/min at the end of a hard pull, filling in it and lambda asked for. */
  readonly top: number;
  readonly pullFilling: number;
  readonly rich: number;
  readonly overrunFilling: number;
  /** Engine stops at a standstill. */
  readonly stops: boolean;
  /** Fuel is never cut: released, the loop stays closed. */
  readonly noCut: boolean;
}

export interface EngineManner {
  readonly throttle: "cable" | "electric" | "none";
  readonly stops: boolean;
  readonly noCut: boolean;
}

export function drawWideManners(random: Random, { throttle, stops, noCut }: EngineManner): WideManners {
  const gear = random.uniform(0.026, 0.046);
  const closed = throttle === "none" ? random.uniform(60, 92) : random.uniform(0, throttle === "electric" ? 18 : 14);
  return {
    gears: [0.22, 0.4, 0.6, 0.8, 1].map((share) => share * gear),
    idleSpeed: random.uniform(620, 920),
    idleFilling: random.uniform(0.17, 0.32),
    closed,
    opens: throttle === "none" ? random.uniform(0, 6) : random.uniform(45, 100),
    cruiseSpeed: random.uniform(1600, 3200),
    cruiseFilling: random.uniform(0.24, 0.55),
    top: random.uniform(2800, 5000),
    pullFilling: random.uniform(0.6, 0.92),
    rich: random.uniform(0.84, 0.97),
    overrunFilling: random.uniform(0.08, 0.24),
    stops,
    noCut,
  };
}

export function drawWideDrive(style: DriveStyle, manners: WideManners, random: Random): Phase[] {
  const at = { manners, random };
  switch (style) {
    case "bay":
      return [...idling(at, [25, 50]), ...away(at), ...cruise(at, [32, 60]), ...pulls(at)];
    case "road":
      return [...town(at, 3), ...away(at), ...cruise(at, [31, 50]), ...pulls(at), ...town(at, 2)];
    case "cruise":
      return [...idling(at, [20, 40]), ...away(at), ...cruise(at, [45, 90])];
    case "pulls":
      return [...away(at), ...cruise(at, [8, 16]), ...pulls(at), ...pulls(at)];
    case "town":
      return [...idling(at, [8, 20]), ...town(at, 7)];
  }
}

interface At {
  readonly manners: WideManners;
  readonly random: Random;
}

/** %: where the throttle stands for a filling. */
const throttleFor = ({ manners: { closed, opens } }: At, filling: number): number =>
  Math.min(100, closed + opens * Math.max(0, filling - 0.12));

export function idling(at: At, [least, most]: readonly [number, number]): Phase[] {
  const { manners, random } = at;
  const steps = 2 + Math.floor(random.uniform(0, 3));
  const seconds = random.uniform(least, most) / steps;
  return Array.from({ length: steps }, () => ({
    kind: "idle",
    seconds,
    engineSpeed: manners.idleSpeed + random.uniform(-25, 25),
    ramp: 0.6,
    filling: manners.idleFilling * random.uniform(0.93, 1.07),
    throttle: manners.closed,
    gear: 0,
  }));
}

/** Held speed, as a foot holds it: every few seconds a little more or less. */
function cruise(at: At, [least, most]: readonly [number, number]): Phase[] {
  const { manners, random } = at;
  const end = random.uniform(least, most);
  const phases: Phase[] = [];
  for (let gone = 0; gone < end; gone += phases.at(-1)!.seconds) {
    const filling = manners.cruiseFilling * random.uniform(0.95, 1.05);
    phases.push({
      kind: "cruise",
      seconds: random.uniform(3, 9),
      engineSpeed: manners.cruiseSpeed * random.uniform(0.985, 1.015),
      ramp: phases.length === 0 ? 1.5 : 4,
      filling,
      throttle: throttleFor(at, filling),
      gear: manners.gears.at(-1)!,
    });
  }
  return phases;
}

/** From a standstill through the gears to the cruise, the clutch between them. */
function away(at: At, gears = 4): Phase[] {
  const { manners, random } = at;
  return manners.gears.slice(0, gears).flatMap((gear, place): Phase[] => {
    const filling = random.uniform(0.35, 0.68);
    const seconds = random.uniform(1.2, 3.2);
    const reached = manners.cruiseSpeed * random.uniform(0.85, 1.15);
    const driving: Phase = {
      kind: "unsteady",
      seconds,
      engineSpeed: reached,
      ramp: seconds,
      filling,
      throttle: throttleFor(at, filling),
      gear,
    };
    const shift: Phase = {
      kind: "unsteady",
      seconds: random.uniform(0.3, 0.8),
      engineSpeed: reached * 0.72,
      ramp: 0.5,
      filling: manners.overrunFilling,
      throttle: manners.closed,
      gear: (gear + (manners.gears[place + 1] ?? gear)) / 2,
    };
    return [driving, shift];
  });
}

function pulls(at: At): Phase[] {
  const count = 2 + Math.floor(at.random.uniform(0, 2.6));
  return Array.from({ length: count }, () => [...pull(at), ...cruise(at, [4, 8])]).flat();
}

function pull(at: At): Phase[] {
  const { manners, random } = at;
  const seconds = random.uniform(2.2, 5.5);
  const reached = manners.top * random.uniform(0.9, 1.08);
  const filling = manners.pullFilling * random.uniform(0.9, 1.05);
  const gear = random.pick(manners.gears.slice(1));
  const hard: Phase = {
    kind: "load",
    seconds,
    engineSpeed: reached,
    ramp: seconds,
    filling,
    throttle: throttleFor(at, filling),
    gear,
    // Without a rich mixture under load the loop stays closed.
    ...(manners.rich < 0.95 ? { enrich: manners.rich } : {}),
  };
  return [hard, release(at, { gear, from: reached, seconds: random.uniform(3, 7), enrich: hard.enrich })];
}

interface Release {
  readonly gear: number;
  readonly from: number;
  readonly seconds: number;
  readonly enrich?: number | undefined;
}

function release({ manners, random }: At, { gear, from, seconds, enrich }: Release): Phase {
  return {
    kind: "overrun",
    seconds,
    engineSpeed: Math.max(manners.idleSpeed * 1.1, from * random.uniform(0.45, 0.62)),
    ramp: seconds * 1.1,
    filling: manners.overrunFilling * random.uniform(0.9, 1.1),
    throttle: manners.closed,
    gear,
    ...(enrich && !manners.noCut ? { enrich: enrich + 0.02 } : {}),
    released: true,
  };
}

/** Pull away, roll, brake, wait; with the engine stopped where the car does that. */
function town(at: At, times: number): Phase[] {
  const { manners, random } = at;
  return Array.from({ length: times }, () => {
    const gears = 2 + Math.floor(random.uniform(0, 2));
    const gear = manners.gears[gears - 1]!;
    const speed = random.uniform(1300, 2300);
    const filling = random.uniform(0.22, 0.42);
    const rolling: Phase = {
      kind: "unsteady",
      seconds: random.uniform(3, 12),
      engineSpeed: speed,
      ramp: 2,
      filling,
      throttle: throttleFor(at, filling),
      gear,
    };
    const braking = release(at, { gear, from: speed, seconds: random.uniform(2, 5) });
    const waiting = manners.stops && random.chance(0.7) ? stop(at) : idling(at, [4, 14]);
    return [...away(at, gears), rolling, braking, ...waiting];
  }).flat();
}

/** The engine turns out, stands, and is started again. */
function stop({ manners, random }: At): Phase[] {
  const off = { kind: "not-running", throttle: manners.closed, gear: 0, stopped: true, released: true } as const;
  return [
    { ...off, seconds: random.uniform(0.5, 0.9), engineSpeed: 0, ramp: 0.6, filling: manners.idleFilling },
    { ...off, seconds: random.uniform(4, 18), engineSpeed: 0, ramp: 0.1, filling: 0 },
    {
      kind: "idle",
      seconds: random.uniform(1.5, 3),
      engineSpeed: manners.idleSpeed * 1.25,
      ramp: 0.5,
      filling: manners.idleFilling * 1.2,
      throttle: manners.closed,
      gear: 0,
    },
  ];
}
