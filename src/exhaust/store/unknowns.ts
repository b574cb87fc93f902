// What is unknown about a car beside its store: where each may lie, where it is first tried, and how unlikely a value is beforehand.

import type { Guess } from "../terms/store-study.ts";
import type { Rig } from "./rig.ts";

export type Free = Exclude<keyof Guess, "store">;

export interface Unknown {
  readonly name: Free;
  /** Values first tried. */
  readonly values: readonly number[];
  readonly low: number;
  readonly high: number;
  /** Moved by factors, else by differences; and by how much, where its effect is looked at. */
  readonly isLog: boolean;
  readonly reach: number;
  /** How far from what is usual, in widths: its square is the penalty. */
  readonly off: (value: number, guess: Guess) => number;
}

/** ln(value / usual) / width: of a log-normal. */
const about = (usual: number, width: number) => (value: number) => Math.log(value / usual) / width;
const log = { isLog: true, reach: 0.06 } as const;

/** s: about one cycle of the engine at 2000 1/min; fuel that dries from the walls makes it longer by several. From memory. */
export const usualMixing = 0.06;

/** @param leaks  g/s that are tried between the sensors; [0]: none. Those that only move what has left the catalyst come first. */
export function unknownsOf({ record }: Rig, leaks: readonly number[]): Unknown[] {
  return [...behind, ...ofFront(record), ...ofCatalyst, ...ofMixture, ...ofFlow(record), ...ofLeak(leaks)];
}

/** Gas and sensor behind the catalyst. */
const behind: readonly Unknown[] = [
  { name: "lag", values: [0.03, 0.09, 0.2, 0.4, 0.9], ...log, low: 0.01, high: 2.5, off: about(0.09, 1) },
  { name: "gas", values: [0.2, 0.6, 1.4], ...log, low: 0.05, high: 4, off: about(0.9, 0.6) },
];

/** The sensor before it. */
function ofFront({ front, skew, trimSwing }: Rig["record"]): readonly Unknown[] {
  const known = skew > 0;
  return [
    {
      name: "skew",
      values: known ? [-0.8 * skew, 0, 0.8 * skew] : [-0.06, -0.02],
      low: -skew - 0.15,
      high: skew + 0.02,
      isLog: false,
      reach: 0.025,
      off: (value) => (known ? value / (skew + 0.05) : value / 0.06),
    },
    {
      name: "loop",
      values: front.isWide ? [0.8, 1, 1.2] : [0.01, 0.018, 0.03, 0.055],
      ...log,
      low: 0.002,
      high: front.isWide ? 2 : 0.08,
      off: front.isWide ? about(1, 0.2) : trimSwing ? about(trimSwing, 0.4) : about(0.028, 0.6),
    },
  ];
}

/** What the catalyst lets pass, and where the rear rests behind it. */
const ofCatalyst: readonly Unknown[] = [
  {
    name: "slip",
    values: [0, 0.15, 0.4],
    low: 0,
    high: 0.7,
    isLog: false,
    reach: 0.02,
    off: (value, { store, sharp }) => Math.hypot(value / passesAtOnce(store), 0.5 ** sharp / passesHalfFull(store)),
  },
  {
    name: "deep",
    values: [0, 0.2, 0.5],
    low: 0,
    high: 0.65,
    isLog: false,
    reach: 0.03,
    off: (value) => value / 0.2,
  },
  { name: "seep", values: [1, 3, 10], isLog: true, reach: 0.15, low: 1, high: 15, off: about(4, 0.6) },
  { name: "sharp", values: [2, 8, 24], isLog: true, reach: 0.25, low: 2, high: 48, off: () => 0 },
  {
    name: "rest",
    values: [0.55, 0.75, 0.9],
    low: 0.3,
    high: 0.97,
    isLog: false,
    reach: 0.02,
    off: (value) => (value - 0.76) / 0.15,
  },
  {
    name: "sag",
    values: [0.1, 0.7, 2],
    low: 0,
    high: 3,
    isLog: false,
    reach: 0.08,
    off: (value, { rest }) => (Math.atanh(Math.min(0.98, 2 * rest - 1)) - value + 0.4) / 0.8,
  },
];

/**
 * What the engine sends. Its front sensor still switches, so the balance sways by less than the loop swings: own choice. How rich
 * it runs once fuel is back is set up for each engine, and anything from hardly to a tenth and more: widths from memory.
 */
const ofMixture: readonly Unknown[] = [
  {
    name: "tilt",
    values: [-0.4, -0.12, 0.1],
    low: -0.9,
    high: 0.6,
    isLog: false,
    reach: 0.02,
    off: (value) => value / (value > 0 ? 0.2 : 0.3),
  },
  {
    name: "sway",
    values: [0, 0.1, 0.3],
    low: 0,
    high: 0.5,
    isLog: false,
    reach: 0.02,
    off: (value) => value / 0.35,
  },
  {
    name: "mixing",
    values: [0.02, 0.06, 0.15],
    ...log,
    reach: 0.15,
    low: 0.005,
    high: 0.5,
    off: about(0.1, 0.9),
  },
  { name: "rich", values: [0.04, 0.1, 0.2], ...log, low: 0.005, high: 0.5, off: about(0.1, 0.7) },
  { name: "back", values: [0.01, 0.03, 0.09], ...log, low: 0.002, high: 0.4, off: about(0.045, 1.1) },
  { name: "again", values: [0.01, 0.03, 0.09], ...log, low: 0.002, high: 0.4, off: about(0.045, 1.1) },
];

function ofFlow({ air }: Rig["record"]): readonly Unknown[] {
  if (air.isMeasured || !air.isKnown) return [];
  return [{ name: "shape", values: [0.75, 1, 1.3], ...log, low: 0.4, high: 2, off: about(1, 0.2) }];
}

function ofLeak(leaks: readonly number[]): readonly Unknown[] {
  if (!leaks.some((leak) => leak > 0)) return [];
  return [{ name: "leak", values: leaks, ...log, low: 1e-3, high: 2, off: () => 0 }];
}

/**
 * Share of the gas that a catalyst with such a store may let pass whatever it holds: a dead one much. Of a sound one so little that
 * the rear does not see it: it stays rich when fuel is cut, though a share of more than `stepWidth` of pure air would bring it down.
 */
const passesAtOnce = (store: number): number => Math.max(0.004, 0.25 * Math.min(1, (0.05 / store) ** 2));

/** … and when half full. Own choice. */
const passesHalfFull = (store: number): number => 0.25 * Math.min(1, (0.06 / store) ** 1.2);

export const usualGuess = (isWide: boolean): Guess => ({
  store: 1,
  loop: isWide ? 1 : 0.028,
  rich: 0.1,
  back: 0.03,
  again: 0.03,
  tilt: -0.12,
  sway: 0,
  slip: 0,
  deep: 0.2,
  seep: 3,
  sharp: 8,
  rest: 0.75,
  sag: 0.4,
  gas: 0.6,
  lag: 0.09,
  skew: -0.02,
  leak: 0,
  mixing: usualMixing,
  shape: 1,
});
