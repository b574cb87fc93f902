// The cars of this plant: kind and number make one, each part by its own chance. Ranges are own choices, wide enough for small town
// cars and large estates.

import { type CatalystSpec, usableOf } from "./catalyst.ts";
import type { CellSpec } from "./cell.ts";
import { type Chance, chanceOf } from "./chance.ts";
import { type DriverSpec, type Outing, planOf } from "./driver.ts";
import type { EngineSpec } from "./engine.ts";
import type { ModuleSpec } from "./module.ts";
import type { HoleSpec, PipeSpec, PlantSpec } from "./plant.ts";
import type { BodySpec } from "./road.ts";

export interface ThirdCar {
  readonly plant: PlantSpec;
  /** g of oxygen it can hold; what of that a cut of 8 g/s fills before 1 % passes. */
  readonly store: number;
  readonly usable: number;
  readonly wide: boolean;
}

/** The names of the judges' kinds, so that nothing of the other plants need be imported. */
export type Trouble = string;

/** Kinds in which the catalyst itself may be of any state. */
const anyStore: readonly Trouble[] = ["no-cut", "start-stop", "cold", "idle-only", "too-short"];
/** Kinds that a wide-band front does not have, or in which it would be another fault. */
const switchingOnly: readonly Trouble[] = ["slow-front", "swapped-leads", "offset"];

export function drawThird(kind: Trouble, number: number, isLog: boolean): ThirdCar {
  const name = `third ${kind} ${number}`;
  const of = (part: string) => chanceOf(`${name} ${part}`);
  const [store, state] = drawStore(kind, of("store"));
  const wide = !switchingOnly.includes(kind) && of("front").happens(1 / 3);
  const catalyst = drawCatalyst(store, state, of("catalyst"));
  const engine = drawEngine(kind, of("engine"));
  const fuelFactor = drawFuel(kind, of("fuel"));
  const outings = { name, kind, isLog, chance: of("drive") };
  const cold = kind === "cold";
  const hotCoolant = of("coolant").between(80, 100);
  const spec: PlantSpec = {
    name,
    ...drawOuting(outings),
    engine,
    body: drawBody(engine, of("body")),
    driver: drawDriver(of("driver")),
    module: drawModule({ kind, wide, fuelFactor }, of("module")),
    pipe: drawPipe(engine, of("pipe")),
    catalyst,
    ...drawCells(kind, of("cells")),
    hole: drawHole(kind, of("hole")),
    coolant: cold ? of("coolant").between(2, 32) : hotCoolant - of("coolant").between(0, 4),
    coolantHot: hotCoolant,
    ambient: 15,
    rises: of("road").between(0.02, 0.16),
    closedThrottle: of("throttle").pick([0, 0, 0.8, 3.5, 7, 11, 14]),
    coldStart: cold,
    fuelFactor,
  };
  return { plant: spec, store, usable: usableOf(catalyst), wide };
}

type State = "sound" | "worn" | "dead";

function drawStore(kind: Trouble, chance: Chance): [number, State] {
  const dead = kind.startsWith("dead");
  const drawn = anyStore.includes(kind) ? chance.pick<State>(["sound", "sound", "worn", "dead", "dead"]) : "sound";
  const state: State = dead ? "dead" : kind === "worn" ? "worn" : drawn;
  if (state === "dead") return [chance.spread(0.01, 0.08), state];
  if (state === "worn") return [chance.spread(0.1, 0.45), state];
  return [chance.spread(kind === "healthy" ? 0.5 : 0.6, 3), state];
}

function drawCatalyst(store: number, state: State, chance: Chance): CatalystSpec {
  const surface = store * chance.between(0.55, 0.85);
  return {
    surface,
    bulk: store - surface,
    uptake: chance.between(45, 120),
    release: chance.between(15, 40),
    exchange: chance.between(0.15, 0.7),
    metal:
      state === "sound" ? chance.between(60, 150) : state === "worn" ? chance.between(30, 70) : chance.between(9, 30),
    lightOff: state === "sound" ? chance.between(240, 290) : chance.between(270, 350),
    waterGas: chance.between(0.008, 0.03),
    linger: chance.between(1.5, 6),
    balance: chance.between(0.8e-4, 2.5e-4),
  };
}

function drawEngine(kind: Trouble, chance: Chance): EngineSpec {
  const litres = chance.between(1, 3.2);
  const cylinders = litres < 1.3 ? chance.pick([3, 4]) : litres > 2.6 ? 6 : 4;
  const uneven = chance.between(0.004, 0.02);
  return {
    litres,
    cylinders,
    filling: chance.between(0.8, 0.95),
    film: {
      share: chance.between(0.08, 0.35),
      seconds: chance.between(0.15, 0.5),
      allowedFor: chance.between(0.75, 1),
    },
    balance: Array.from({ length: cylinders }, () => 1 + uneven * chance.bell()),
    raw: chance.between(0.004, 0.009),
    misfire: { cylinder: 1, share: kind === "misfire" ? chance.between(0.08, 0.4) : 0 },
    inertia: 0.09 + 0.05 * litres,
    accessories: chance.between(3, 9),
  };
}

const drawBody = ({ litres }: EngineSpec, chance: Chance): BodySpec => {
  const long = chance.between(0.9, 1.12);
  return {
    mass: 780 + 260 * litres + chance.between(0, 250),
    drag: chance.between(0.55, 0.75),
    gears: [7.6, 14, 21, 28.5, 36, 43]
      .slice(0, chance.pick([5, 5, 6]))
      .map((one) => long * one * (0.92 + 0.04 * litres)),
    automatic: chance.happens(0.35),
  };
};

const drawDriver = (chance: Chance): DriverSpec => ({
  reaction: chance.between(0.25, 0.7),
  looks: chance.between(0.25, 0.6),
  foot: chance.between(90, 320),
  haste: chance.between(1, 1.9),
});

/** What comes out of the injectors over what is asked: beyond the trims in half of the rich and lean ones. */
function drawFuel(kind: Trouble, chance: Chance): number {
  const far = chance.happens(0.5) ? chance.between(0.3, 0.4) : chance.between(0.14, 0.24);
  if (kind === "rich") return 1 + far;
  return kind === "lean" ? 1 / (1 + far) : 1 + chance.between(-0.05, 0.05);
}

function drawModule(of: { kind: Trouble; wide: boolean; fuelFactor: number }, chance: Chance): ModuleSpec {
  const meter = chance.between(0.9, 1.1);
  const longMost = of.kind === "rich" || of.kind === "lean" ? chance.between(0.1, 0.16) : 0.22;
  const needed = 1 / (meter * of.fuelFactor) - 1 + chance.between(-0.01, 0.01);
  return {
    wide: of.wide,
    meter,
    longMost,
    longStart: Math.max(-longMost, Math.min(longMost, needed)),
    shortMost: chance.between(0.1, 0.25),
    jump: [chance.between(0.012, 0.024), chance.between(0.022, 0.042)],
    slope: [chance.between(0.016, 0.034), chance.between(0.05, 0.12)],
    dead: chance.between(0.0, 0.05),
    dither: { share: chance.between(0.013, 0.03), hertz: chance.between(1, 2) },
    rearAim: chance.between(0.63, 0.73),
    rearPace: chance.spread(0.03, 0.12),
    cuts: of.kind !== "no-cut",
    cutDelay: chance.pick([0.05, 0.2, 0.4, 0.8]),
    cutBack: chance.between(1050, 1300),
    cutAbove: chance.between(150, 500),
    refill: chance.between(0.05, 0.1),
    refillFor: chance.between(2, 8),
    full: { pedal: chance.between(55, 85), after: chance.between(0.1, 1.2), share: chance.between(0.05, 0.15) },
    idle: chance.between(660, 850),
    closes: chance.between(20, 45),
  };
}

function drawPipe({ litres }: EngineSpec, chance: Chance): PipeSpec {
  return {
    toFront: chance.between(0.7, 1.3) * (0.5 + 0.4 * litres),
    toCatalyst: chance.between(0.15, 0.6),
    node: chance.between(0.08, 0.16) * (0.6 + 0.4 * litres),
    toRear: chance.between(0.15, 1),
  };
}

function drawCells(kind: Trouble, chance: Chance) {
  const cell = (toRich: number, toLean: number, cover: number): CellSpec => ({
    toRich,
    toLean,
    cover,
    electrode: chance.between(0.95, 0.99),
    rich: chance.between(0.76, 0.9),
    floor: chance.between(0, 0.05),
    steep: chance.between(0.8, 1.4),
  });
  const slow = (low: number, high: number) => {
    const [one, other] = [chance.between(low, high), chance.between(low, high)];
    return [one, chance.happens(0.3) ? 0.3 * other : other] as const;
  };
  const front =
    kind === "slow-front" ? slow(0.3, 0.9) : ([chance.between(0.04, 0.12), chance.between(0.05, 0.16)] as const);
  const quick = [chance.between(0.04, 0.14), chance.between(0.06, 0.24)] as const;
  const rear = kind === "slow-rear" ? slow(0.9, 2.5) : kind === "dead-behind-slow-rear" ? slow(0.4, 1.3) : quick;
  return {
    front: cell(...front, kind === "slow-front" ? chance.between(0.1, 0.3) : chance.between(0.02, 0.06)),
    rear: cell(...rear, 0.01),
    rearAwake: kind === "rear-asleep" ? chance.between(0.03, 0.22) : 1,
    wideLag: chance.between(0.05, 0.15),
    wideWidest: chance.pick([1.99, 1.99, 4, 7.9]),
    wideError: chance.between(-0.006, 0.006),
  };
}

function drawHole(kind: Trouble, chance: Chance): HoleSpec | null {
  if (kind === "leak-ahead") return { place: "ahead", share: chance.between(0.05, 0.14), half: chance.between(3, 8) };
  if (kind === "leak-between")
    return { place: "between", share: chance.between(0.02, 0.14), half: chance.between(3, 9) };
  return null;
}

function drawOuting(of: { name: string; kind: Trouble; isLog: boolean; chance: Chance }) {
  const { kind, isLog, chance } = of;
  const usual = isLog ? chance.between(150, 260) : chance.between(90, 190);
  const seconds = kind === "too-short" ? chance.between(4, 10) : kind === "cold" ? chance.between(50, 130) : usual;
  const free = chance.pick<Outing>(["test", "test", "test", "test", "test", "test", "town", "town", "cruise", "yard"]);
  const fixed: Partial<Record<Trouble, Outing>> = { "start-stop": "town", cold: "town", "idle-only": "idle" };
  const outing = fixed[kind] ?? free;
  return { seconds, plan: planOf(outing, seconds, kind === "start-stop", chance) };
}
