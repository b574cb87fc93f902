// The third plant against closed forms, and that it is one of its own: nothing of it comes from the other plants or the program.

import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import type { Kind } from "./recording.ts";
import { drawThird } from "./third-plant/cars.ts";
import { Catalyst, type CatalystSpec, usableOf } from "./third-plant/catalyst.ts";
import { Cell, cellVolts, logRatio, nernst } from "./third-plant/cell.ts";
import { chanceOf } from "./third-plant/chance.ts";
import { Engine, type EngineSpec } from "./third-plant/engine.ts";
import { excessOf, type Gas, joinAir, noGas, oxygenOfAir, Stirred } from "./third-plant/gas.ts";
import { ride, step } from "./third-plant/plant.ts";
import { readThird } from "./third-recording.ts";

test("imports nothing of the other plants, nor of the program", () => {
  const folder = join(import.meta.dirname, "third-plant");
  for (const name of readdirSync(folder)) {
    const from = [...readFileSync(join(folder, name), "utf8").matchAll(/from "([^"]+)"/g)].map(([, path]) => path!);
    expect(from.filter((path) => !path.startsWith("./"))).toEqual([]);
  }
});

test("chance is even and bell-shaped: within four standard errors of 20,000, and its own for each name", () => {
  const chance = chanceOf("any name");
  const evens = Array.from({ length: 20_000 }, () => chance.between(0, 1));
  const bells = Array.from({ length: 20_000 }, () => chance.bell());
  const mean = (list: number[]) => list.reduce((sum, one) => sum + one, 0) / list.length;
  expect(Math.abs(mean(evens) - 0.5)).toBeLessThan(4 * Math.sqrt(1 / 12 / 20_000));
  expect(Math.abs(mean(bells))).toBeLessThan(4 * Math.sqrt(1 / 20_000));
  expect(Math.abs(mean(bells.map((one) => one * one)) - 1)).toBeLessThan(4 * Math.sqrt(2 / 20_000));
  expect(chanceOf("any name").between(0, 1)).toBe(evens[0]);
  expect(chanceOf("any other").between(0, 1)).not.toBe(evens[0]);
});

const gasOf = (oxygen: number, reductant: number): Gas => ({ oxygen, reductant, unburnt: 0, hydrogen: 0 });

describe("the catalyst", () => {
  const spec: CatalystSpec = {
    surface: 0.6,
    bulk: 0.4,
    uptake: 80,
    release: 30,
    exchange: 0.4,
    metal: 80,
    lightOff: 260,
    waterGas: 0,
    linger: 2,
    balance: 0,
  };

  test("lets out what goes in less what it stores, to the last gram", () => {
    const catalyst = new Catalyst(spec, 0.4, 550);
    const before = catalyst.held;
    let stored = 0;
    for (let k = 0; k < 4000; k++) {
      const gas = gasOf(0.01 + Math.max(0, 0.04 * Math.sin(k / 300)), 0.01 + Math.max(0, -0.04 * Math.sin(k / 300)));
      const entered = excessOf(gas);
      catalyst.pass(gas, 12, 0.002);
      stored += 12 * oxygenOfAir * 0.002 * (entered - excessOf(gas));
    }
    expect(catalyst.held - before).toBeCloseTo(stored, 9);
    expect(Math.abs(stored)).toBeGreaterThan(0.001);
  });

  test("full surfaces share with the bulk: both go to the same filling as exp(-k (1 + bulk/surface) t)", () => {
    const catalyst = new Catalyst(spec, 0, 450);
    catalyst.surface.fill(1);
    for (let k = 0; k < 1000; k++) catalyst.pass(noGas(), 1, 0.001);
    // d(surface - bulk)/dt = -pace x exchange x (1 + bulk / surface) x difference, pace 1 at 450 degC but for the light-off.
    const gap = catalyst.surface[1]! - catalyst.bulk[1]!;
    expect(gap).toBeCloseTo(Math.exp(-0.4 * (1 + 0.4 / 0.6) * catalyst.active), 3);
  });

  test("is usable up to all where nothing holds it back, and to less where the bulk is slow", () => {
    expect(usableOf({ ...spec, surface: 1, bulk: 0, uptake: 400 })).toBeGreaterThan(0.97);
    expect(usableOf({ ...spec, exchange: 0 })).toBeLessThan(0.6);
    expect(usableOf(spec)).toBeGreaterThan(usableOf({ ...spec, exchange: 0 }));
  });

  test("does little while cold", () => {
    const cold = new Catalyst(spec, 0.5, 60);
    const gas = gasOf(0.03, 0);
    cold.pass(gas, 10, 0.002);
    expect(gas.oxygen).toBeGreaterThan(0.97 * 0.03);
  });
});

describe("the cell", () => {
  const spec = { toRich: 0.05, toLean: 0.2, cover: 1e-4, electrode: 1, rich: 0.8, floor: 0, steep: 5 };

  test("reads Nernst's law in lean gas: RT/4F times ln(1 / share of air's oxygen)", () => {
    for (const share of [0.02, 0.1, 0.5])
      expect(cellVolts(spec, logRatio(gasOf(share, 0), 1))).toBeCloseTo(0.01881 * Math.log(1 / share), 3);
  });

  test("rises by twice the Nernst slope for each factor e of reductant", () => {
    const volts = (share: number) => cellVolts(spec, logRatio(gasOf(0, share), 1));
    expect(volts(0.02 * Math.E) - volts(0.02)).toBeCloseTo(2 * nernst, 3);
  });

  test("goes towards the log-ratio as exp(-t/tau), later to lean than to rich", () => {
    const middle = (from: Gas, to: Gas) => {
      const cell = new Cell(spec, logRatio(from, 1));
      for (let k = 0; k < 1000; k++) cell.read(from, 1, 0.001);
      let at = 0;
      const isRich = cell.read(from, 1, 0.001) > 0.45;
      while (cell.read(to, 1, 0.001) > 0.45 === isRich) at += 0.001;
      return at;
    };
    const [lean, rich] = [gasOf(0.02, 0), gasOf(0, 0.02)];
    // From +5.3 to -5.3 in the logarithm the middle is passed at tau ln 2; the wire adds its 6 ms.
    expect(middle(rich, lean)).toBeCloseTo(0.2 * Math.LN2, 1);
    expect(middle(lean, rich)).toBeCloseTo(0.05 * Math.LN2 + 0.006, 1);
    expect(middle(rich, lean)).toBeGreaterThan(2 * middle(lean, rich));
  });
});

describe("the engine", () => {
  const spec: EngineSpec = {
    litres: 2,
    cylinders: 4,
    filling: 0.9,
    film: { share: 0.3, seconds: 0.4, allowedFor: 0 },
    balance: [1, 1, 1, 1],
    raw: 0,
    misfire: { cylinder: 0, share: 0 },
    inertia: 0.2,
    accessories: 5,
  };

  test("breathes filling x litres x speed / 120 x density, and as much as the throttle lets through", () => {
    const engine = new Engine(spec, chanceOf("breath"));
    engine.speed = 3500;
    for (let k = 0; k < 4000; k++) engine.run(25, 25 / 14.6, 0.001);
    expect(engine.throttled).toBeCloseTo(engine.breathed, 6);
    const density = engine.pressure / 86.1;
    const filled = 0.9 * (1 - 0.12 * (1 - engine.pressure / 100));
    expect(engine.breathed).toBeCloseTo(filled * 2 * (3500 / 120) * density, 6);
  });

  test("a wet wall answers a step of fuel with 1 - share at once and the rest as exp(-t/tau)", () => {
    const engine = new Engine({ ...spec, cylinders: 6 }, chanceOf("film"));
    engine.speed = 6000;
    const air = () => engine.breathed / 14.6;
    for (let k = 0; k < 6000; k++) engine.run(60, air(), 0.001);
    expect(excessOf(engine.out)).toBeCloseTo(0, 2);
    const after: number[] = [];
    for (let k = 0; k < 800; k++) {
      engine.run(60, 0.8 * air(), 0.001);
      after.push(excessOf(engine.out));
    }
    // Two turns and a stroke late: 24 ms at 6,000 1/min.
    for (const at of [50, 200, 500]) {
      const wanted = 0.2 * (1 - 0.3 * Math.exp(-(at - 24) / 400));
      expect(Math.abs(after[at]! - wanted)).toBeLessThan(0.003);
    }
  });
});

test("a stirred volume changes as exp(-t m R T / (p V))", () => {
  const volume = new Stirred(2);
  for (let k = 0; k < 1000; k++) volume.take(gasOf(1, 0), 10 * 0.0001, 700);
  expect(volume.gas.oxygen).toBeCloseTo(1 - Math.exp((-0.1 * 10 * 0.287 * 700) / (101.3 * 2)), 3);
});

test("air that joins is told by its share: 5 % of the flow raises matched gas to 0.05 / 1.05", () => {
  const gas = gasOf(0.004, 0.004);
  joinAir(gas, 0.05);
  expect(excessOf(gas)).toBeCloseTo(0.05 / 1.05, 12);
});

describe("cars", () => {
  test("are the same for the same kind and number, and hold what their kind says", () => {
    expect(drawThird("dead", 3, false)).toEqual(drawThird("dead", 3, false));
    for (let n = 0; n < 12; n++) {
      expect(drawThird("healthy", n, true).store).toBeGreaterThanOrEqual(0.5);
      expect(drawThird("slow-rear", n, true).store).toBeGreaterThanOrEqual(0.5);
      const dead = drawThird("dead", n, true);
      expect(dead.store).toBeLessThanOrEqual(0.08);
      expect(dead.usable).toBeLessThanOrEqual(dead.store);
    }
  });

  test("behave as cars do: a sound rear falls later in a cut than a dead one, and stays calmer at a held speed", () => {
    const [sound, dead] = (["healthy", "dead"] as const).map((kind) => {
      const { plant } = drawThird(kind, 2, false);
      const { catalyst } = drawThird(kind === "healthy" ? "healthy" : "dead", kind === "healthy" ? 1 : 4, false).plant;
      const hold = { do: "hold", to: 80, for: 45 } as const;
      const plan = [hold, { do: "coast", to: 30, for: 20 } as const, hold];
      return ride({ ...plant, seconds: 60, plan, module: { ...plant.module, wide: false }, catalyst });
    });
    // Of a window of 1.5 s the whole swing, of all windows the middle one: what follows the front's rhythm, not what wanders.
    const swing = ({ tracks }: typeof sound & object) => {
      const window = (from: number) => tracks.rear.subarray(from / step, (from + 1.5) / step);
      const swings = Array.from(
        { length: 14 },
        (_, k) => Math.max(...window(5 + 1.5 * k)) - Math.min(...window(5 + 1.5 * k)),
      );
      return swings.sort((one, other) => one - other)[7]!;
    };
    const late = ({ cut, tracks }: typeof sound & object) => {
      const from = cut.indexOf(1);
      const front = tracks.front.findIndex((volts, k) => k > from && volts < 0.45);
      return step * (tracks.rear.findIndex((volts, k) => k > front && volts < 0.45) - front);
    };
    expect(swing(sound!)).toBeLessThan(0.15);
    expect(swing(dead!)).toBeGreaterThan(2 * swing(sound!));
    expect(late(dead!)).toBeLessThan(0.5);
    expect(late(sound!)).toBeGreaterThan(2 * Math.max(0.2, late(dead!)));
  });
});

describe("recordings", () => {
  test.each<[Kind, number]>([
    ["dead", 0],
    ["dead", 1],
    ["healthy", 3],
    ["rich", 0],
    ["rich", 1],
    ["too-short", 2],
  ])("%s %d is read with a role for each column", async (kind, number) => {
    const { capture, known } = await readThird(kind, number);
    const roles = capture.channels.map(({ role }) => role);
    expect(roles).toContain("rear-o2");
    expect(roles.some((role) => role === "front-o2" || role === "front-lambda")).toBe(true);
    expect(roles).not.toContain("other");
    expect(new Set(roles).size).toBe(roles.length);
    expect(known).toMatchObject({ plant: "third", kind, number });
  });
});
