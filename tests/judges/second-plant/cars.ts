// Draws the second plant's cars. All ranges are own choice from memory; none was chosen by what the program says of them.

import { type BrickSpec, usableOf } from "./brick.ts";
import type { CellSpec } from "./cell.ts";
import { type Chance, chanceFrom } from "./chance.ts";
import type { ModuleSpec } from "./module.ts";
import type { HoleSpec, PlantSpec } from "./plant.ts";
import { type CarBody, type Outing, planDrive } from "./road.ts";

export const troubles = [
  "healthy",
  "worn",
  "dead",
  "dead-behind-slow-rear",
  "slow-front",
  "slow-rear",
  "rear-asleep",
  "offset",
  "leak-ahead",
  "leak-between",
  "rich",
  "lean",
  "misfire",
  "swapped-leads",
  "no-cut",
  "start-stop",
  "cold",
  "idle-only",
  "too-short",
] as const;
export type Trouble = (typeof troubles)[number];

export interface SecondCar {
  readonly trouble: Trouble;
  readonly number: number;
  readonly outing: Outing;
  /** g that the hot brick can hold; of it usable in a cut, see `usableOf`. */
  readonly store: number;
  readonly usable: number;
  readonly plant: PlantSpec;
}

/** The same car for the same trouble and number. */
export function drawSecond(trouble: Trouble, number: number): SecondCar {
  const chance = chanceFrom(1_000_003 * (1 + troubles.indexOf(trouble)) + 7 * number + 11);
  const store = grams(trouble, chance);
  const outing = outingOf(trouble, chance);
  const body = drawBody(chance, trouble === "start-stop" || chance.happens(0.12));
  const drive = planDrive(outing, chance.branch("plan"));
  const noCut = trouble === "no-cut" || chance.happens(0.08);
  const brick = drawBrick(chance, store, body.litres);
  const plain: PlantSpec = {
    seed: Math.floor(chance.between(1, 2 ** 31)),
    body,
    drive: trouble === "too-short" ? { ...drive, seconds: chance.between(2, 5) } : drive,
    module: drawModule(chance, noCut, body.litres),
    brick,
    brickStartsAt: chance.between(430, 600),
    brickWarms: chance.decades(20, 70),
    coolantFrom: chance.between(75, 98),
    coolantTo: chance.between(80, 100),
    front: drawCell(chance, [0.015, 0.07], [0.006, 0.035]),
    rear: drawCell(chance, [0.015, 0.14], [0.008, 0.06]),
    ahead: body.litres * chance.decades(0.25, 0.9),
    behind: body.litres * chance.decades(0.5, 1.8),
    stirred: chance.decades(0.03, 0.4),
    holeAhead: null,
    holeBetween: null,
    fails: 0,
    scatter: chance.decades(0.0015, 0.009),
    meterGain: chance.between(0.93, 1.07),
    meterLag: chance.decades(0.02, 0.09),
  };
  return { trouble, number, outing, store, usable: usableOf(brick), plant: ail(trouble, plain, chance) };
}

function grams(trouble: Trouble, chance: Chance): number {
  if (trouble === "dead" || trouble === "dead-behind-slow-rear") return chance.decades(0.02, 0.08);
  if (trouble === "worn") return chance.decades(0.08, 0.5);
  const either = trouble === "start-stop" || trouble === "cold" || trouble === "idle-only" || trouble === "too-short";
  return either && chance.happens(0.5) ? chance.decades(0.02, 0.08) : chance.decades(0.5, 3);
}

function outingOf(trouble: Trouble, chance: Chance): Outing {
  if (trouble === "cold") return "start";
  if (trouble === "idle-only") return "idle";
  if (trouble === "start-stop") return chance.oneOf(["mixed", "town"]);
  if (trouble === "no-cut") return chance.oneOf(["mixed", "cruise"]);
  return chance.oneOf(["mixed", "mixed", "mixed", "mixed", "pulls", "pulls", "cruise", "town"]);
}

function drawBody(chance: Chance, stopsEngine: boolean): CarBody {
  const litres = chance.decades(1, 3.5);
  const mass = (650 + 380 * litres) * chance.between(0.85, 1.15);
  const scale = chance.between(0.82, 1.2) / litres ** 0.25;
  return {
    litres,
    mass,
    rolling: mass * 9.81 * chance.between(0.009, 0.014),
    drag: chance.between(0.33, 0.55),
    ratios: [130, 76, 52, 39, 31].map((ratio) => ratio * scale),
    idleFilling: chance.between(0.18, 0.31),
    shutFilling: chance.between(0.08, 0.17),
    idleSpeed: chance.between(630, 900),
    plate: chance.oneOf(["cable", "cable", "cable", "motor", "motor", "motor", "none"]),
    stopsEngine,
  };
}

/** What is cleared after a cut was laid down for a new catalyst of the engine's size. */
function drawModule(chance: Chance, noCut: boolean, litres: number): ModuleSpec {
  return {
    jump: chance.decades(0.01, 0.045),
    ramp: chance.decades(0.008, 0.06),
    dwell: chance.decades(0.02, 0.3),
    rearWanted: chance.between(0.5, 0.75),
    rearGain: chance.happens(0.2) ? 0 : chance.decades(0.03, 0.4),
    reach: chance.between(0.18, 0.3),
    error: chance.between(-0.05, 0.05),
    learned: chance.between(-0.04, 0.04),
    cutAfter: noCut ? Number.POSITIVE_INFINITY : chance.decades(0.08, 1.1),
    cutUntil: chance.between(1000, 1600),
    rich: chance.between(0.84, 1),
    richAfter: chance.decades(0.1, 1.2),
    clearing: chance.between(0.88, 0.97),
    clearingOxygen: litres * chance.between(0.1, 0.8),
    openFor: 0,
  };
}

/** The less it holds, the less of its metal works; a broken one lets gas around. */
function drawBrick(chance: Chance, store: number, litres: number): BrickSpec {
  const sound = Math.min(1, Math.max(0, Math.log(store / 0.03) / Math.log(30)));
  const poisoned = chance.between(0, 0.8);
  const weights = Array.from({ length: 8 }, (_, k) => 1 - poisoned * (1 - k / 7));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return {
    cells: weights.map((weight) => (store * weight) / sum),
    metal: litres * chance.decades(4, 14) * (1 + 4 * sound),
    ceria: litres * chance.decades(8, 22) * (1 + 2.5 * sound),
    order: chance.decades(0.25, 1.2),
    water: chance.decades(0.001, 0.02),
    pressure: chance.decades(0.0005, 0.003) * (0.4 + 0.8 * sound),
    bypass: store <= 0.08 && chance.happens(0.4) ? chance.between(0.02, 0.5) : 0,
    lightOff: chance.between(255, 320),
  };
}

type Range = readonly [number, number];

function drawCell(chance: Chance, coat: Range, wiring: Range): CellSpec {
  const coatLean = chance.decades(...coat);
  return {
    coatLean,
    coatRich: coatLean * chance.between(0.7, 1.5),
    wiring: chance.decades(...wiring),
    startsAt: chance.between(560, 660),
    heatedTo: chance.between(580, 740),
    heats: chance.decades(8, 26),
    wakes: chance.between(350, 430),
    idleVolts: chance.between(0.4, 0.5),
    width: chance.decades(0.0003, 0.002),
    richer: chance.between(-0.1, 0.18),
    hydrogenSense: chance.between(0.03, 0.25),
    burnsFuel: chance.between(0.2, 0.6),
  };
}

function ail(trouble: Trouble, plain: PlantSpec, chance: Chance): PlantSpec {
  switch (trouble) {
    case "slow-front":
      return { ...plain, front: slowed(plain.front, chance, [0.15, 0.5]) };
    case "slow-rear":
    case "dead-behind-slow-rear":
      return { ...plain, rear: slowed(plain.rear, chance, [0.2, 0.6]) };
    case "rear-asleep":
      return { ...plain, rear: { ...plain.rear, startsAt: 90, heatedTo: chance.between(140, 280) } };
    case "leak-ahead":
      return { ...plain, holeAhead: hole(plain, chance, [0.06, 0.2], [10, 60]) };
    case "leak-between":
      return { ...plain, holeBetween: hole(plain, chance, [0.01, 0.1], [4, 20]) };
    case "rich":
      return fuelled(plain, chance.decades(0.13, 0.4), chance);
    case "lean":
      return fuelled(plain, -chance.decades(0.13, 0.32), chance);
    case "misfire":
      return { ...plain, fails: chance.decades(0.015, 0.12) };
    case "cold":
      return fromCold(plain, chance);
    default:
      return plain;
  }
}

/** Its electrode is fouled: the cell itself is slow, and the coat a little. */
const slowed = (cell: CellSpec, chance: Chance, wiring: Range): CellSpec => ({
  ...cell,
  wiring: chance.decades(...wiring),
  coatLean: cell.coatLean * chance.between(1, 3),
  coatRich: cell.coatRich * chance.between(1, 3),
});

const hole = ({ body: { litres } }: PlantSpec, chance: Chance, share: Range, closes: Range): HoleSpec => ({
  share: (chance.decades(...share) * litres) / 1.6,
  closesAt: litres * chance.decades(...closes),
});

function fuelled(plain: PlantSpec, error: number, chance: Chance): PlantSpec {
  const reach = chance.happens(0.4) ? Math.abs(error) * chance.between(0.2, 0.35) : plain.module.reach;
  const learned = Math.max(-reach, Math.min(reach, 1 / (1 + error) - 1));
  return { ...plain, module: { ...plain.module, reach, error, learned } };
}

function fromCold(plain: PlantSpec, chance: Chance): PlantSpec {
  const outside = chance.between(-10, 30);
  return {
    ...plain,
    module: { ...plain.module, openFor: chance.between(10, 40) },
    brickStartsAt: outside,
    brickWarms: chance.decades(150, 300),
    coolantFrom: outside,
    coolantTo: chance.between(60, 90),
    front: { ...plain.front, startsAt: outside },
    rear: { ...plain.rear, startsAt: outside },
  };
}
