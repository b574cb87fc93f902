// The second plant against closed forms, and that it is a second one: nothing of it comes from the first simulator.

import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { Brick, type BrickSpec, usableOf } from "./second-plant/brick.ts";
import { drawSecond } from "./second-plant/cars.ts";
import { cellVolts } from "./second-plant/cell.ts";
import { chanceFrom } from "./second-plant/chance.ts";
import { type Gas, litresOfGram, oxygenOfAir, Plug, rawExhaust } from "./second-plant/gas.ts";

const spec: BrickSpec = {
  cells: [0.1, 0.1, 0.1, 0.1, 0.1],
  metal: 1e4,
  ceria: 1e4,
  order: 0.3,
  water: 0,
  pressure: 0,
  bypass: 0,
  lightOff: 300,
};
const gasOf = (excess: number): Gas => rawExhaust(excess, { oxygen: 0, reductant: 0, hydrogen: 0, unburnt: 0 });

test("imports nothing of the first simulator, nor of the program", () => {
  const folder = join(import.meta.dirname, "second-plant");
  for (const name of readdirSync(folder)) {
    const from = [...readFileSync(join(folder, name), "utf8").matchAll(/from "([^"]+)"/g)].map(([, path]) => path!);
    expect(from.filter((path) => !path.startsWith("./"))).toEqual([]);
  }
});

describe("chance", () => {
  test("is even and bell-shaped: mean and deviation within four standard errors of 20,000", () => {
    const chance = chanceFrom(7);
    const [evens, bells] = [
      Array.from({ length: 20_000 }, () => chance.between(0, 1)),
      Array.from({ length: 20_000 }, () => chance.bell()),
    ];
    const mean = (list: number[]) => list.reduce((sum, one) => sum + one, 0) / list.length;
    expect(Math.abs(mean(evens) - 0.5)).toBeLessThan(4 * Math.sqrt(1 / 12 / 20_000));
    expect(Math.abs(mean(bells))).toBeLessThan(4 * Math.sqrt(1 / 20_000));
    expect(Math.abs(mean(bells.map((one) => one * one)) - 1)).toBeLessThan(4 * Math.sqrt(2 / 20_000));
  });
});

describe("the brick", () => {
  test("lets out what goes in less what it stores, to the last gram", () => {
    const brick = new Brick({ ...spec, ceria: 20, metal: 20, order: 1 }, 0.3);
    const before = brick.held;
    let lost = 0;
    for (let k = 0; k < 3000; k++) {
      const gas = gasOf(0.03 * Math.sin(k / 90));
      const net = gas.oxygen - gas.reductant;
      brick.pass(gas, 0.02, 0.002, 600);
      lost += 0.02 * (net - (gas.oxygen - gas.reductant));
    }
    expect(brick.held - before).toBeCloseTo(lost, 9);
    expect(Math.abs(lost)).toBeGreaterThan(0.01);
  });

  test("holds all but what the last cell has left when 1 % passes: empty^order = 0.99 there, the others are full", () => {
    expect(usableOf({ ...spec, order: 0.01 })).toBeCloseTo(0.5 - 0.1 * 0.99 ** (1 / 0.01), 2);
    expect(usableOf({ ...spec, order: 0.002 })).toBeCloseTo(0.5, 2);
  });

  test("passes at once what goes around it", () => {
    expect(usableOf({ ...spec, bypass: 0.3 })).toBe(0);
  });

  test("one cell of order 1 at low contact fills as 1 - exp(-k t): an integral in closed form", () => {
    // Uptake per gram of air is oxygen x c x (1 - filled), c = 1 - exp(-ceria / flow); so empty = exp(-oxygen c air / grams).
    const brick = new Brick({ ...spec, cells: [1], ceria: 0.05, metal: 0, order: 1 }, 0);
    const [air, steps] = [0.0002, 20_000];
    for (let k = 0; k < steps; k++) {
      const gas: Gas = { oxygen: oxygenOfAir, reductant: 0, hydrogen: 0, unburnt: 0 };
      brick.pass(gas, air, 0.0001, 900);
    }
    const contact = 1 - Math.exp(-0.05 / 2);
    expect(brick.held).toBeCloseTo(1 - Math.exp(-oxygenOfAir * contact * air * steps), 3);
  });
});

describe("the cell", () => {
  const sharp = { width: 1e-5, richer: 0 };
  test.each([
    [0.05, 600, 0.0188 * Math.log(20)],
    [0.01, 600, 0.0188 * Math.log(100)],
    [1, 600, 0],
  ])("reads the Nernst voltage of lean gas, excess %d at %d degC", (excess, celsius, volts) => {
    expect(cellVolts(sharp, excess, celsius)).toBeCloseTo(volts, 3);
  });

  test("rises by twice the Nernst slope for each factor e of reductant", () => {
    const slope = (8.31446 * 923.15) / (4 * 96485.33);
    const rise = cellVolts(sharp, -0.01 * Math.E, 650) - cellVolts(sharp, -0.01, 650);
    expect(rise).toBeCloseTo(2 * slope, 4);
  });
});

test("a pipe holds gas back for V p / (R T m): 2 l at 10 g/s and 700 K take 0.101 s", () => {
  const pipe = new Plug(2);
  const [step, out] = [0.0005, gasOf(0)];
  const litres = 10 * step * litresOfGram(700);
  let left = 0;
  for (let k = 0; k < 4000 && !left; k++) {
    pipe.through(gasOf(k < 1000 ? 0 : 1), litres, out);
    if (k > 1000 && out.oxygen > 0.2) left = (k - 1000) * step;
  }
  expect(left).toBeCloseTo(0.101, 2);
});

test("the same trouble and number make the same car", () => {
  expect(drawSecond("dead", 3)).toEqual(drawSecond("dead", 3));
  expect(drawSecond("dead", 3).store).not.toBe(drawSecond("dead", 4).store);
  expect(drawSecond("dead", 3).usable).toBeLessThanOrEqual(drawSecond("dead", 3).store);
});
