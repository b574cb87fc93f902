// What leaves the catalyst of each of several cars that are driven side by side on one recording.

import type { Guess } from "../terms/store-study.ts";
import { fuel } from "./record.ts";
import type { Rig } from "./rig.ts";

/** Half-width of the rear sensor's step as 1 - 1/lambda. From memory, 0.002 to 0.01. */
const stepWidth = 0.004;
/** The rear sensor's own loop enriches a full catalyst and leans an empty one, by this share of `loop`. From memory. */
const rearControl = 0.6;
/** A course further off what the rear shows than this, V, sways the balance as far as it may go. Own choice. */
const fullSway = 0.15;

/** Where the numbers of a car stand: what each rule offers, what it is made of, and how it is in the cell. */
const rules = 0;
const ofLoop = 5;
const byStore = 6;
const mostSway = 7;
const mixed = 8;
const squarings = 9;
const between = 10;
const kept = 11;
const nearStore = 12;
const perNear = 13;
const sinking = 14;
const deepStore = 15;
const leaking = 16;
const resting = 17;
const sagging = 18;
const holds = 19;
const deepFilled = 20;
const airShare = 21;
const showed = 22;
const perCar = 23;

/** Closed loop moves with the store, too, and a cut's air comes little by little. */
function putCar({ record }: Rig, guess: Guess, car: Float64Array): void {
  const { store, loop, sharp, deep } = guess;
  const offBalance = record.front.isWide ? 0.01 : loop;
  const near = store * (1 - deep);
  const doublings = Math.min(5, Math.floor(Math.log2(sharp)));
  car.set([offBalance * (guess.tilt + 0.5 * rearControl), 1, -guess.rich, -guess.back, -guess.again], rules);
  car[ofLoop] = loop;
  car[byStore] = (-offBalance * rearControl) / near;
  car[mostSway] = offBalance * guess.sway;
  car[mixed] = 1 - Math.exp(-record.grid.step / guess.mixing);
  car[squarings] = doublings - 1;
  car[between] = Math.log2(sharp) - doublings;
  car[kept] = 1 - guess.slip;
  car[nearStore] = near;
  car[perNear] = 1 / near;
  car[sinking] = deep > 0 ? record.grid.step / guess.seep : 0;
  car[deepStore] = store * deep;
  car[leaking] = guess.leak;
  car[resting] = Math.atanh(Math.min(0.98, 2 * guess.rest - 1));
  car[sagging] = guess.sag;
  car[holds] = near / 2;
  car[deepFilled] = 0.5;
}

/**
 * Voltage at the rear sensor's tip for the gas that enters the catalyst in each cell. In a cell a car waits for what it was in the
 * cell before, and the processor with it; of several cars it works out others meanwhile.
 *
 * @param into  a value for each cell of the first car, then of the second, …
 */
export function leaveCatalysts(rig: Rig, guesses: readonly Guess[], into: Float64Array): void {
  const { record, centred, shown, flow, oxygen, perOxygen, low, high, lift } = rig;
  const { rule } = record;
  const cars = new Float64Array(guesses.length * perCar);
  guesses.forEach((guess, k) => {
    putCar(rig, guess, cars.subarray(k * perCar, (k + 1) * perCar));
  });
  const perStep = 1 / stepWidth;
  const leanOfAir = lift / 9;
  for (let i = 0; i < flow.length; i++) {
    const grams = oxygen[i]!;
    const perGram = perOxygen[i]!;
    const kind = rule[i]!;
    const isLoop = kind === fuel.loop;
    const isCut = kind === fuel.cut;
    const drawn = flow[i]!;
    const offered = centred[i]!;
    const seen = shown[i]!;
    for (let car = 0, to = i; car < cars.length; car += perCar, to += flow.length) {
      const near = cars[car + nearStore]!;
      const perStore = cars[car + perNear]!;
      let held = cars[car + holds]!;
      const filled = held * perStore;
      let e = cars[car + rules + kind]!;
      if (isLoop) {
        e += cars[car + ofLoop]! * offered + cars[car + byStore]! * held;
        const sway = cars[car + mostSway]!;
        if (sway > 0 && i > 0) e += swayed(cars[car + showed]! - seen, sway);
      }
      if (isCut) e = cars[car + airShare]! + (1 - cars[car + airShare]!) * cars[car + mixed]!;
      cars[car + airShare] = isCut ? e : 0;
      let free = e > 0 ? filled : 1 - filled;
      free *= free;
      for (let n = cars[car + squarings]!; n > 0; n--) free *= free;
      free += cars[car + between]! * (free * free - free);
      const next = Math.max(0, Math.min(held + e * (grams * cars[car + kept]!) * (1 - free), near));
      const passed = grams > 0 ? e - (next - held) * perGram : 0;
      held = next;
      const sinks = cars[car + sinking]!;
      if (sinks > 0) {
        const below = cars[car + deepFilled]!;
        const sunk = (held * perStore - below) * sinks;
        cars[car + deepFilled] = below + sunk;
        held = Math.max(0, Math.min(held - sunk * cars[car + deepStore]!, near));
      }
      cars[car + holds] = held;
      const leak = cars[car + leaking]!;
      const left = passed + (leak > 0 && drawn > 0 ? leak / (drawn + leak) : 0);
      const sag = cars[car + sagging]! * fallen(held * perStore);
      const richness = 0.5 * (1 + tanh(cars[car + resting]! - sag - left * perStep));
      const lean = left > 0 && lift > 0 ? low + lift / (1 + 8 * Math.sqrt(left)) - leanOfAir : low;
      const volts = lean + (high - lean) * richness;
      cars[car + showed] = volts;
      into[to] = volts;
    }
  }
}

/** Leaner where the rear shows less than the course does; 0 where it shows nothing. */
function swayed(off: number, sway: number): number {
  if (off >= fullSway) return sway;
  if (off <= -fullSway) return -sway;
  return off - off === 0 ? (off * sway) / fullSway : 0;
}

/** Share of `sag` by which the rear has fallen behind a store that is so full: a steep step about the middle. */
const fallen = (filled: number): number => smooth(smooth(filled));

const smooth = (share: number): number => share * share * (3 - 2 * share);

/** Padé's form of the hyperbolic tangent, right to 0.024: the sensor's own curve is not known better. */
function tanh(x: number): number {
  if (x > 3) return 1;
  if (x < -3) return -1;
  const square = x * x;
  return (x * (27 + square)) / (27 + 9 * square);
}
