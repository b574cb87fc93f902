// The simulator's parts against closed forms and handbook arithmetic, so that its truth may judge others.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { CarSpec } from "../../sample-traces/simulator/car.ts";
import { createCatalyst } from "../../sample-traces/simulator/catalyst.ts";
import { demoCars } from "../../sample-traces/simulator/demo-cars.ts";
import {
  cellSlope,
  litresPerGram,
  nernstVoltage,
  oxygenInAir,
  oxygenOver,
  transportTime,
} from "../../sample-traces/simulator/gas.ts";
import { lagShare } from "../../sample-traces/simulator/lag.ts";
import { createPipe } from "../../sample-traces/simulator/pipe.ts";
import { seededRandom } from "../../sample-traces/simulator/random.ts";
import { runCar } from "../../sample-traces/simulator/run.ts";
import { cellVoltage, createSensor } from "../../sample-traces/simulator/sensor.ts";
import { crossings, integral } from "../../sample-traces/simulator/truth.ts";

const good: CarSpec = demoCars.good;

describe("gas", () => {
  // Closed form t = V p / (R T m): 2 L, 700 K, 101.3 kPa, 10 g/s.
  test("takes 0.101 s through 2 L at 10 g/s and 700 K", () => {
    expect(transportTime(2, { kelvin: 700, kiloPascal: 101.3, flow: 10 })).toBeCloseTo(0.101, 3);
  });

  // 0.2095 mol/mol x 32.00 / 28.97 g/mol, dry air.
  test("is 0.2314 oxygen by mass", () => {
    expect(oxygenInAir).toBeCloseTo((0.2095 * 32.0) / 28.97, 4);
  });

  // Closed form, oxygen mass share 0.2314 (the lean example is stated with 0.23 in round figures, hence 1 %).
  test.each([
    ["fuel cut 10 g/s, 0.60 s", 10, 1, 0.6, 1.388],
    ["lambda 1.05, 15 g/s, 1.2 s", 15, 1 - 1 / 1.05, 1.2, 0.197],
    ["lambda 0.90, 20 g/s, 1 s", 20, 1 - 1 / 0.9, 1, -0.511],
  ])("brings the oxygen that arithmetic says: %s", (_, flow, excess, seconds, grams) => {
    expect(Math.abs(oxygenOver(flow, excess, seconds) / grams - 1)).toBeLessThan(0.01);
  });

  test("leaves a pipe when its volume has followed, at a flow that changes", () => {
    const step = 0.001;
    const perGram = litresPerGram(700, 101.3);
    const flowAt = (i: number) => (i < 1000 ? 10 : 20);
    const volume = new Float64Array(3000);
    for (let i = 1; i < volume.length; i++) volume[i] = volume[i - 1]! + flowAt(i) * perGram * step;
    // A ramp in: what comes out tells when it went in.
    const input = Float64Array.from(volume, (_, i) => i * step);
    const pipe = createPipe(volume, 2);
    const out = Float64Array.from(volume, (_, i) => pipe(input, i));
    const lag = (i: number) => i * step - out[i]!;
    expect(lag(900)).toBeCloseTo(transportTime(2, { kelvin: 700, kiloPascal: 101.3, flow: 10 }), 2);
    expect(lag(2500)).toBeCloseTo(transportTime(2, { kelvin: 700, kiloPascal: 101.3, flow: 20 }), 2);
  });
});

describe("oxygen cell", () => {
  // R T / 4F: 18.81 mV at 600 degC, 14.50 at 400, 23.12 at 800 (closed form with CODATA constants).
  test.each([
    [400, 14.5],
    [600, 18.81],
    [800, 23.12],
  ])("has the slope R T / 4F at %i degC", (celsius, millivolts) => {
    expect(Math.abs(1000 * cellSlope(celsius + 273.15) - millivolts)).toBeLessThan(0.02);
  });

  // Nernst: 1 % oxygen at 600 degC 57.2 mV; 1e-20 bar at 700 degC 932.7 mV, both within 0.5 mV.
  test("gives the Nernst voltage", () => {
    expect(Math.abs(1000 * nernstVoltage(873.15, 0.01 * 1.01325) - 57.2)).toBeLessThan(0.5);
    expect(Math.abs(1000 * nernstVoltage(973.15, 1e-20) - 932.7)).toBeLessThan(0.5);
  });

  // From the Nernst equation: in a fuel cut the exhaust is air on both sides, so the voltage is 0, not 0.1 V.
  test("reads nothing in air, less than 0.15 V lean and more than 0.75 V rich", () => {
    expect(cellVoltage(good.front, 1, 900)).toBeCloseTo(0, 3);
    expect(cellVoltage(good.front, 0.02, 900)).toBeLessThan(0.15);
    expect(cellVoltage(good.front, -0.02, 900)).toBeGreaterThan(0.75);
  });

  test("falls as the mixture leans", () => {
    const excess = fc.double({ min: -0.2, max: 1, noNaN: true });
    fc.assert(
      fc.property(excess, excess, (a, b) => {
        const [richer, leaner] = a < b ? [a, b] : [b, a];
        expect(cellVoltage(good.front, richer, 900)).toBeGreaterThanOrEqual(cellVoltage(good.front, leaner, 900));
      }),
    );
  });

  test("shows the module's bias while asleep, whatever the gas", () => {
    const cold = { ...good.rear, hotTemperature: 150, bias: 0.45 };
    const sensor = createSensor(cold, 0.001);
    for (let i = 0; i < 60_000; i++)
      expect(Math.abs(sensor(i % 2000 < 1000 ? -0.1 : 1, true) - 0.45)).toBeLessThan(0.001);
  });

  // Time from 0.9 towards 0 through 0.6 to 0.3 V of a first-order lag: tau ln((0.6 - end)/(0.3 - end)).
  test("falls with its own lag from rich to lean", () => {
    const spec = { ...good.front, coldTemperature: 640, richToLean: 0.1 };
    const sensor = createSensor(spec, 0.001);
    for (let i = 0; i < 5000; i++) sensor(-0.1, true);
    const wave = Float64Array.from({ length: 2000 }, () => sensor(1, true));
    const through = (level: number) => wave.findIndex((v) => v < level) * 0.001;
    expect(through(0.3) - through(0.6)).toBeCloseTo(0.1 * Math.log(0.6 / 0.3), 2);
  });

  // First-order lag: gain 1/sqrt(1 + (2 pi f tau)^2) = 0.8467 and lag atan(2 pi f tau)/(2 pi f) = 89.3 ms at 1 Hz, 0.1 s.
  test("lags as first order does: 0.8467 of a 1 Hz sine at 0.1 s, 89.3 ms late", () => {
    const step = 0.001;
    const share = lagShare(0.1, step);
    let y = 0;
    const wave = Float64Array.from({ length: 6000 }, (_, i) => {
      y += (Math.sin(2 * Math.PI * (i + 0.5) * step) - y) * share;
      return y;
    });
    const last = wave.subarray(4000);
    expect(Math.max(...last)).toBeCloseTo(0.8467, 3);
    expect(
      crossings(
        Float64Array.from(last, (v) => v + 0.45),
        step,
      ).rises[0]! % 1,
    ).toBeCloseTo(0.0893, 2);
  });
});

describe("catalyst", () => {
  test("keeps the oxygen balance: in minus out is what is stored", () => {
    const step = 0.001;
    fc.assert(
      fc.property(fc.integer(), fc.double({ min: 0.005, max: 2, noNaN: true }), (seed, capacity) => {
        const random = seededRandom(seed);
        const catalyst = createCatalyst({ ...good.catalyst, capacity, slip: 0.1, sharpness: 8 }, step);
        const before = catalyst.stored();
        let moved = 0;
        for (let i = 0; i < 2000; i++) {
          const [excess, flow] = [random.chance(0.2) ? 1 : random.uniform(-0.15, 0.1), random.uniform(0, 40)];
          moved += oxygenOver(flow, excess - catalyst.pass(excess, flow, 0.9), step);
          expect(catalyst.stored()).toBeGreaterThanOrEqual(0);
          expect(catalyst.stored()).toBeLessThanOrEqual(capacity * (1 + 1e-12));
        }
        expect(catalyst.stored() - before).toBeCloseTo(moved, 9);
      }),
      { numRuns: 30 },
    );
  });

  // Arithmetic: 1.388 g is 0.60 s of air at 10 g/s.
  test("of 1.388 g, emptied, lets air at 10 g/s through after 0.6 s, and not before 90 % of it", () => {
    const catalyst = createCatalyst({ ...good.catalyst, capacity: 1.388 }, 0.001);
    for (let i = 0; i < 5000; i++) catalyst.pass(-0.12, 40, 1);
    let first = 0;
    while (catalyst.pass(1, 10, 1) < 0.01) first++;
    expect(first * 0.001).toBeGreaterThan(0.54);
    expect(first * 0.001).toBeLessThan(0.6);
  });
});

describe("a whole drive", () => {
  const history = runCar(good);

  test("is the same for the same seed", () => {
    expect(runCar(good).rearVoltage).toEqual(history.rearVoltage);
  });

  test("closes the oxygen balance over all of it", () => {
    const passed = (excess: Float64Array) =>
      history.airFlow.reduce((sum, flow, i) => sum + oxygenOver(flow, excess[i]!, history.step), 0);
    const change = history.stored.at(-1)! - good.catalyst.capacity / 2;
    expect(passed(history.excessIn) - passed(history.excessOut)).toBeCloseTo(change, 6);
  });

  // Workshop targets (common practice): rich 0.8 ... 0.95 V, lean 0.05 ... 0.2 V, 0.5 ... 1.5 Hz at idle, 1 ... 5 Hz at 2,500.
  test("hunts as a warm port-injected engine does", () => {
    const rate = (from: number, to: number) =>
      crossings(history.frontVoltage.subarray(from * 1000, to * 1000), history.step).falls.length / (to - from);
    expect(rate(40, 80)).toBeGreaterThan(0.5);
    expect(rate(40, 80)).toBeLessThan(1.5);
    expect(rate(85, 110)).toBeGreaterThan(1);
    expect(rate(125, 155)).toBeLessThan(5);
    const idle = history.frontVoltage.subarray(40_000, 80_000);
    expect(idle.reduce((a, b) => Math.max(a, b))).toBeGreaterThan(0.8);
    expect(idle.reduce((a, b) => Math.min(a, b))).toBeLessThan(0.2);
  });

  // Air drawn by a four-stroke engine: displacement x speed/2 x density x filling; common practice: 2 ... 4 g/s at idle.
  test("draws a likely amount of air", () => {
    expect(history.airFlow[60_000]).toBeGreaterThan(2);
    expect(history.airFlow[60_000]).toBeLessThan(4);
  });

  test("integrates a straight line exactly, from and to any instant", () => {
    const line = Float64Array.from({ length: 101 }, (_, i) => 2 * i * 0.01);
    expect(integral(line, 0.01, [0.123, 0.777])).toBeCloseTo(0.777 ** 2 - 0.123 ** 2, 12);
  });
});
