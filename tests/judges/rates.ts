// What the judges want of the answers, counted: each rate with its bounds, scopes and logs each by themselves.

import { proportionBounds } from "../../src/signal/numbers/proportion.ts";
import type { Kind } from "./recording.ts";
import { hasOwnFinding, type Row } from "./verdict.ts";

export interface Wanted {
  readonly name: string;
  readonly of: (row: Row) => boolean;
  readonly hit: (row: Row) => boolean;
  /** Hits are good (at least this share) or bad (at most). */
  readonly atLeast?: number;
  readonly atMost?: number;
}

/** Kinds whose catalyst is sound and in which something else is amiss. */
const mimics: readonly Kind[] = [
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
];
/** Nothing is amiss, but the drive or the car is of a rarer sort. */
const odd: readonly Kind[] = ["no-cut", "start-stop"];

const isSound = ({ store }: Row) => store >= 0.5;
const isDead = ({ store }: Row) => store <= 0.08;
const pointed = ({ catalyst }: Row) => catalyst === "points-to";
const away = ({ catalyst }: Row) => catalyst === "points-away";
const isOne = (kinds: readonly Kind[]) => (row: Row) => kinds.includes(row.kind);

/** Rates of the fit recordings of one kind of recorder. */
const ofFit: readonly Wanted[] = [
  { name: "healthy (0.5 g or more), pointed at", of: (row) => row.kind === "healthy", hit: pointed, atMost: 0 },
  { name: "healthy, told away", of: (row) => row.kind === "healthy", hit: away, atLeast: 0.85 },
  { name: "dead (0.08 g or less), pointed at", of: (row) => row.kind === "dead", hit: pointed, atLeast: 0.9 },
  { name: "dead, told away", of: (row) => row.kind === "dead", hit: away, atMost: 0 },
  {
    name: "dead behind a slow rear, told away",
    of: (row) => row.kind === "dead-behind-slow-rear",
    hit: away,
    atMost: 0,
  },
  {
    name: "sound without cut or with engine stops, pointed at",
    of: (row) => isOne(odd)(row) && isSound(row),
    hit: pointed,
    atMost: 0.01,
  },
  { name: "dead with engine stops, told away", of: (row) => isOne(odd)(row) && isDead(row), hit: away, atMost: 0 },
  { name: "any mimic, pointed at", of: isOne(mimics), hit: pointed, atMost: 0.01 },
  ...mimics.map(
    (kind): Wanted => ({ name: `${kind}, pointed at`, of: (row) => row.kind === kind, hit: pointed, atMost: 0.01 }),
  ),
  ...mimics.map(
    (kind): Wanted => ({
      name: `${kind}, told by its own finding`,
      of: (row) => row.kind === kind,
      hit: ({ told }) => told === true,
      atLeast: 0.7,
    }),
  ),
  { name: "store bounds given", of: () => true, hit: ({ bounds }) => bounds !== null, atLeast: 0 },
  { name: "store bounds hold the truth", of: ({ bounds }) => bounds !== null, hit: storeHeld, atLeast: 0.95 },
  { name: "store bounds at most x3", of: () => true, hit: isNarrow, atLeast: 0.5 },
];

const ofUnfit: readonly Wanted[] = [
  { name: "not fit, cannot say", of: () => true, hit: ({ catalyst }) => catalyst === "cannot-say", atLeast: 0.99 },
];

/**
 * A truth between what is usable in a cut and what the brick can hold: bounds that leave out all of that are wrong. There is no single
 * number, since slip begins before the store is full.
 */
export function storeHeld({ bounds, store, usable }: Row): boolean {
  return bounds !== null && (bounds[0] ?? 0) <= store && usable <= (bounds[1] ?? Number.POSITIVE_INFINITY);
}

function isNarrow({ bounds }: Row): boolean {
  const [low, high] = bounds ?? [null, null];
  return low !== null && high !== null && low > 0 && high <= 3 * low;
}

/** "choose": even numbers of the first plant, to look at while rules are made. "judge": its odd ones, and all of the others. */
export const halves = [
  "first plant, choose",
  "first plant, judge",
  "second plant, judge",
  "third plant, judge",
] as const;
export type Half = (typeof halves)[number];

export const halfOf = ({ plant, number }: Pick<Row, "plant" | "number">): Half =>
  plant !== "first" ? `${plant} plant, judge` : number % 2 === 0 ? "first plant, choose" : "first plant, judge";

/** The halves that rows are of. */
export const halvesOf = (rows: readonly Row[]): Half[] =>
  halves.filter((half) => rows.some((row) => halfOf(row) === half));

export interface Rate {
  readonly half: Half;
  readonly recorder: Row["recorder"];
  readonly name: string;
  readonly wanted: string;
  readonly hits: number;
  readonly of: number;
  /** 95 % bounds of the rate, Clopper and Pearson. */
  readonly low: number;
  readonly high: number;
  /** By the count itself; null where no recording is of this sort. */
  readonly holds: boolean | null;
}

export function ratesOf(rows: readonly Row[]): Rate[] {
  return halves.flatMap((half) =>
    (["scope", "log"] as const).flatMap((recorder) => {
      const here = rows.filter((row) => halfOf(row) === half && row.recorder === recorder);
      const rate = (among: readonly Row[]) => (wanted: Wanted) => rateOf(among, wanted, { half, recorder });
      const [fit, unfit] = [here.filter((row) => row.fit), here.filter((row) => !row.fit)];
      return [...ofFit.map(rate(fit)), ...ofUnfit.map(rate(unfit))];
    }),
  );
}

function rateOf(rows: readonly Row[], wanted: Wanted, where: Pick<Rate, "half" | "recorder">): Rate {
  const among = rows.filter(wanted.of);
  const hits = among.filter(wanted.hit).length;
  const of = among.length;
  const [low, high] = of === 0 ? [0, 1] : proportionBounds(hits, of);
  const { name, atLeast, atMost } = wanted;
  const says = atLeast === undefined ? `<= ${100 * atMost!} %` : `>= ${100 * atLeast} %`;
  const holds = of === 0 ? null : atLeast === undefined ? hits / of <= atMost! : hits / of >= atLeast;
  return { ...where, name, wanted: says, hits, of, low, high, holds };
}

/** What is wrong with the answer to one recording; empty where nothing is. */
export function missesOf(row: Row): string[] {
  const { kind, catalyst, fit, told, bounds, store, usable } = row;
  const list: string[] = [];
  if (catalyst === "points-to" && !isDead(row) && kind !== "worn") list.push("accused");
  if (catalyst === "points-away" && isDead(row)) list.push("cleared a dead one");
  if (!fit && catalyst !== "cannot-say") list.push(`${catalyst} although not fit`);
  if (fit && kind === "dead" && catalyst === "cannot-say") list.push("dead, cannot say");
  if (fit && kind === "healthy" && catalyst === "cannot-say") list.push("healthy, cannot say");
  if (fit && hasOwnFinding(kind) && told === false) list.push("fault not told");
  if (bounds && !storeHeld(row)) {
    const text = bounds.map((grams) => (grams === null ? "open" : grams)).join(" to ");
    list.push(`store ${text} g, truth ${usable.toPrecision(2)} to ${store.toPrecision(2)} g`);
  }
  return list;
}
