// How well the best car with each size of store explains the recording: everything else about the car is fitted anew.

import type { Fit, Guess } from "../terms/store-study.ts";
import { type Bench, rearCourse } from "./forward.ts";
import { misfitOf, type Rows } from "./misfit.ts";

/** Stores looked at, g: even in the logarithm, 0.01 to 5. */
export const stores: readonly number[] = Array.from({ length: 15 }, (_, k) => 0.01 * 500 ** (k / 14));

type Free = Exclude<keyof Guess, "store">;

/** Values first tried for each unknown, how it is varied after that, and how unlikely a value is beforehand. */
interface Choice {
  readonly name: Free;
  readonly values: readonly number[];
  readonly vary: (value: number, step: number) => readonly number[];
  readonly penalty: (value: number, guess: Guess) => number;
}

/** (ln(value / usual) / width)²: twice the logarithm of a log-normal's density. */
const about = (usual: number, width: number) => (value: number) => (Math.log(value / usual) / width) ** 2;
const times = (value: number, step: number) => [value * (1 + step), value / (1 + step)];
const within =
  (low: number, high: number, reach: number) =>
  (value: number, step: number): readonly number[] => [
    Math.min(high, value + reach * step),
    Math.max(low, value - reach * step),
  ];

function choicesOf({ record: { front, skew, trimSwing } }: Bench, leaks: readonly number[]): Choice[] {
  const known = skew > 0;
  return [
    {
      name: "loop",
      values: front.isWide ? [0.8, 1, 1.2] : [0.01, 0.018, 0.03, 0.055],
      vary: times,
      penalty: front.isWide ? about(1, 0.2) : trimSwing ? about(trimSwing, 0.4) : about(0.028, 0.6),
    },
    { name: "lag", values: [0.03, 0.09, 0.2, 0.4, 0.9], vary: times, penalty: about(0.09, 1) },
    { name: "gas", values: [0.2, 0.6, 1.4], vary: times, penalty: about(0.7, 0.8) },
    {
      name: "slip",
      values: [0, 0.15, 0.4],
      vary: within(0, 0.7, 0.2),
      penalty: (value, { store, sharp }) => ((value + 0.5 ** sharp) / passesAll(store)) ** 2,
    },
    { name: "rest", values: [0.55, 0.75, 0.9], vary: within(0.3, 0.97, 0.2), penalty: () => 0 },
    { name: "sag", values: [0.1, 0.5, 1], vary: within(0, 1.5, 0.6), penalty: (value) => ((value - 0.4) / 0.5) ** 2 },
    { name: "tilt", values: [-0.4, -0.12, 0.1], vary: within(-0.9, 0.6, 0.3), penalty: (value) => (value / 0.3) ** 2 },
    { name: "rich", values: [0.04, 0.1, 0.2], vary: times, penalty: about(0.1, 0.5) },
    { name: "back", values: [0.01, 0.03, 0.09], vary: times, penalty: about(0.03, 0.7) },
    { name: "again", values: [0.01, 0.03, 0.09], vary: times, penalty: about(0.03, 0.7) },
    {
      name: "sharp",
      values: [2, 8, 32],
      vary: (value) => [value < 32 ? 2 * value : 16, value > 2 ? value / 2 : 4],
      penalty: () => 0,
    },
    {
      name: "skew",
      values: known ? [-0.8 * skew, 0, 0.8 * skew] : [-0.06, -0.02],
      vary: within(-skew - 0.15, skew + 0.02, 0.1),
      penalty: (value) => (known ? (value / (skew + 0.05)) ** 2 : (value / 0.06) ** 2),
    },
    { name: "leak", values: leaks, vary: (value, step) => (value > 0 ? times(value, step) : []), penalty: () => 0 },
  ];
}

/** Share of the gas that a catalyst with such a store may let pass whatever it holds: a dead one much, a sound one hardly any. Own choice. */
const passesAll = (store: number): number => 0.25 * Math.min(1, (0.06 / store) ** 1.2);

const usual = (isWide: boolean): Guess => ({
  store: 1,
  loop: isWide ? 1 : 0.028,
  rich: 0.1,
  back: 0.03,
  again: 0.03,
  tilt: -0.12,
  slip: 0,
  sharp: 8,
  rest: 0.75,
  sag: 0.4,
  gas: 0.6,
  lag: 0.09,
  skew: -0.02,
  leak: 0,
});

/** Places on `stores` from which the rest is reached: dead, worn, sound. */
const anchors = [3, 8, 11] as const;

/** The profile: the best fit for each store, bettered from the fits of its neighbours. */
export function profileOf(bench: Bench, rows: Rows, leaks: readonly number[] = [0]): Fit[] {
  const choices = choicesOf(bench, leaks);
  const cost: CostOf = (guess, below) => costOf({ bench, rows, choices }, guess, below);
  const best: Fit[] = new Array(stores.length);
  const offer = (k: number, guess: Guess, steps: readonly number[]) => {
    const fit = bettered({ ...guess, store: stores[k]! }, steps, choices, cost);
    if (!best[k] || fit.cost < best[k]!.cost) best[k] = fit;
  };
  for (const k of anchors) {
    const first = fromLists({ ...usual(bench.record.front.isWide), store: stores[k]! }, choices, cost);
    offer(k, first, [0.5, 0.5, 0.25]);
  }
  for (let k = anchors[0] - 1; k >= 0; k--) offer(k, best[k + 1]!.guess, [0.3]);
  for (let k = anchors[0] + 1; k < stores.length; k++) offer(k, best[k - 1]!.guess, [0.3]);
  for (let k = stores.length - 2; k >= 0; k--) offer(k, best[k + 1]!.guess, [0.3, 0.12]);
  for (let k = 1; k < stores.length; k++) offer(k, best[k - 1]!.guess, [0.12]);
  return best;
}

/** Leaks between the sensors that are tried, g/s. */
const leaks = [0.02, 0.06, 0.15] as const;
/** Sound stores that are tried with a leak, g. */
const sound = [0.5, 1, 2.2] as const;

/** The best fit of a sound catalyst, however small its store, with air that leaks in behind it. */
export function leakFit(bench: Bench, rows: Rows): Fit {
  const choices = choicesOf(bench, leaks);
  const cost: CostOf = (guess, below) => costOf({ bench, rows, choices }, guess, below);
  const start = { ...usual(bench.record.front.isWide), leak: leaks[1] };
  const fits = sound.map((store) => {
    const first = fromLists({ ...start, store }, choices, cost);
    return bettered(first, [0.5, 0.5, 0.25, 0.12], choices, cost);
  });
  return fits.reduce((least, one) => (one.cost < least.cost ? one : least));
}

/** Each unknown in turn takes the best of its listed values, twice. */
function fromLists(start: Guess, choices: readonly Choice[], costOf: CostOf): Guess {
  let [guess, cost] = [start, costOf(start)];
  for (let round = 0; round < 2; round++) {
    for (const { name, values } of choices) {
      for (const value of values) {
        if (value === guess[name]) continue;
        const other = { ...guess, [name]: value };
        const its = costOf(other, cost);
        if (its < cost) [guess, cost] = [other, its];
      }
    }
  }
  return guess;
}

/** One round for each step: each unknown in turn is varied by it, and once more the same way where that helped. */
function bettered(start: Guess, steps: readonly number[], choices: readonly Choice[], costOf: CostOf): Fit {
  let [guess, cost] = [start, costOf(start)];
  for (const step of steps) {
    for (const { name, vary } of choices) {
      const tried = vary(guess[name], step);
      for (let way = 0; way < tried.length; way++) {
        const other = { ...guess, [name]: tried[way]! };
        const its = other[name] === guess[name] ? cost : costOf(other, cost);
        if (its < cost) {
          [guess, cost] = [other, its];
          break;
        }
      }
    }
  }
  return { guess, cost };
}

/** What a guess costs; Infinity at once where that is surely no less than `below`, as most guesses are given up. */
type CostOf = (guess: Guess, below?: number) => number;

interface Costing {
  readonly bench: Bench;
  readonly rows: Rows;
  readonly choices: readonly Choice[];
}

function costOf({ bench, rows, choices }: Costing, guess: Guess, below = Infinity): number {
  let sum = 0;
  for (const { name, penalty } of choices) sum += penalty(guess[name], guess);
  if (sum >= below) return Infinity;
  return sum + misfitOf(rows, rearCourse(bench, guess), below - sum);
}
