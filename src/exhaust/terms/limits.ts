// Every threshold that findings use, in one table: value, unit, meaning, and where it comes from.

import type { Unit } from "../../signal/numbers/reading.ts";
import { formatExact } from "../../signal/written/digits.ts";
import { asWritten } from "../../signal/written/words.ts";

/**
 * "published": read in a standard, paper or regulation. "common practice": workshop habit, no published source found.
 * "from memory": textbook order of magnitude, not checked again. "own choice": a rule of this tool, said so.
 */
export type LimitSource = "published" | "common practice" | "from memory" | "own choice";

export interface Limit {
  readonly value: number;
  readonly unit: Unit;
  /** For people: "Rich above this level". */
  readonly meaning: string;
  readonly source: LimitSource;
  /** A ratio that is told as a share: people read and type it in percent. */
  readonly isShare?: boolean;
}

const practice = (value: number, unit: Unit, meaning: string): Limit => ({
  value,
  unit,
  meaning,
  source: "common practice",
});
const memory = (value: number, unit: Unit, meaning: string): Limit => ({ value, unit, meaning, source: "from memory" });
const own = (value: number, unit: Unit, meaning: string): Limit => ({ value, unit, meaning, source: "own choice" });

const share = (limit: Limit): Limit => ({ ...limit, isShare: true });

/** The table as delivered. A job may change any value; the rest stays. */
export const defaultLimits = {
  deadStore: memory(
    0.15,
    "g",
    "A catalyst that holds less oxygen than this is worn out, whatever the engine (failing ones hold about 0.1 to 0.3 g)",
  ),
  soundStore: memory(
    0.5,
    "g",
    "… and one that holds more than this is sound (aged but good ones hold about 0.3 to 0.8 g)",
  ),
  leastExplained: share(own(0.6, "1", "A fit that explains less than this share of the rear's movement says nothing")),
  bandExplained: share(
    own(
      0.8,
      "1",
      "A fit that explains less than this share draws no sound catalyst beside the recorded rear: it would mislead",
    ),
  ),
  storeRows: own(7.5, "samples/s", "A rear sensor recorded slower than this cannot carry a verdict on the store"),
  storeCruise: own(25, "s", "Without two fuel cuts, so much steady cruise is needed for a verdict on the store"),
  storeAirDoubt: own(
    2.4,
    "1",
    "Where nothing recorded speaks of air, both limits of the store, and what a leak must explain it worse by, grow by this factor",
  ),
  leakWorse: own(
    2,
    "1",
    "A rear that falls at once, or follows, is blamed on the catalyst where a leak explains the recording worse by so many margins of the fit",
  ),
  sizeMargin: own(
    10,
    "1",
    "A store explains the recording as well while its misfit is no more than this above the best …",
  ),
  sizeMarginShare: own(4, "%", "… and this share of the best one's own misfit"),
  fitMargin: own(6, "1", "An explanation of another kind is as good up to this above it …"),
  fitMarginShare: own(7, "%", "… and this share of it"),
  fitForm: own(1.5, "1", "Bounds of the store are widened by this factor, as the form of the model may be off"),
  fitRows: own(60, "1", "Fewer rows of the rear sensor than this tell nothing of the store"),
  leakTried: share(
    own(0.95, "1", "Air that leaks in is fitted where the catalyst alone explains less than this share …"),
  ),
  leakTriedStore: own(0.35, "g", "… or would have to hold less than this"),
  sureAir: own(1.25, "1", "An air flow known within this factor is known well enough to speak of grams"),

  switchLevel: practice(0.45, "V", "Crossings are counted here: rich above, lean below"),
  lowLevel: practice(0.3, "V", "Lower level of the switch times and of waking up"),
  highLevel: practice(0.6, "V", "Upper level of the switch times and of waking up"),
  leastHysteresis: own(
    0.05,
    "V",
    "A crossing counts beyond this on both sides of the switch level, or 4 x noise if more",
  ),
  fastestFront: practice(5, "Hz", "No front sensor switches faster: slower sampling than twice this may fold it"),
  samplesPerCycle: own(4, "1", "Fewer samples in a front cycle than this cannot carry a comparison"),
  frontCycles: practice(20, "1", "Fewer front cycles in a stretch than this are not judged"),

  groundInAir: practice(0.05, "V", "A zirconia sensor that sees air reads this …"),
  groundLeast: practice(0.08, "V", "… and further off than this, its ground adds a voltage …"),
  groundMost: practice(0.3, "V", "… but further off than this, it is no air that it sees"),

  engineRuns: practice(300, "1/min", "Above this the engine runs"),
  idleSpeed: practice(1150, "1/min", "Below this, throttle closed and standing, it idles"),
  idleFastest: practice(
    2,
    "Hz",
    "A front that switches faster than this does not idle (about 0.5 to 1 Hz is usual there)",
  ),
  steadySpeed: practice(150, "1/min", "Engine speed within this either way is steady"),
  standing: practice(3, "km/h", "Below this the vehicle stands"),
  loadThrottle: practice(50, "%", "Throttle further open than this is a hard pull"),
  loadShare: practice(75, "%", "Engine load above this is a hard pull"),
  warmCoolant: practice(80, "degC", "Below this coolant temperature the engine is cold"),
  hotCatalyst: memory(350, "degC", "Above this the catalyst works (light-off lies at about 250 to 350)"),
  warmingTime: practice(
    120,
    "s",
    "So long after the front sensor woke, a catalyst is taken as hot when no temperature was recorded",
  ),
  wakeTime: practice(90, "s", "A heated sensor that has not woken after so long of running engine is suspect"),
  biasLow: practice(0.35, "V", "Lower edge of the usual bias of a sleeping sensor"),
  biasHigh: practice(0.55, "V", "Upper edge of the usual bias of a sleeping sensor"),

  cutSpeed: practice(1300, "1/min", "Throttle closing above this engine speed, speed falling: fuel is likely cut"),
  cutLevel: practice(0.15, "V", "In a fuel cut the front stays below this"),
  cutTime: practice(1, "s", "The front must stay there for longer than this"),
  cutAgainstHalfCycle: own(
    1.5,
    "1",
    "… and for longer than this times the longest lean half-cycle before, unless a fuel cut is proven",
  ),
  cutMemory: own(30, "s", "Lean half-cycles longer ago than this are another kind of running"),
  cutLambda: own(1.1, "1", "A wide-band front has fallen when lambda passes this"),
  cutPump: memory(
    0.5,
    "mA",
    "… and one recorded as its pump current, when that passes this (0 in balance, about 2.5 in air)",
  ),
  offScaleLambda: own(1.9, "1", "Lambda beyond this is air: fuel was cut"),
  richPlateau: own(0.5, "s", "The front must be rich for so long before a lift-off, so that the store is empty"),
  closedThrottle: own(3, "%", "Throttle within this of its lowest is closed"),
  airFlowDoubt: practice(10, "%", "An air-flow meter may be off by this much either way"),
  shortDelay: practice(0.2, "s", "A rear that follows a lift-off within this has hardly any store before it"),
  shortDelayFlow: own(
    12,
    "g/s",
    "… at no more air than this, where nothing else was seen: at more, even a good store fills at once",
  ),
  longDelay: practice(1, "s", "A rear that holds on longer than this has a store before it"),

  wayOxygen: memory(
    0.32,
    "g",
    "So much oxygen may lie between the sensors in a fuel cut (1.4 g of gas): what lift-offs show to have been stored is told without it",
  ),

  busyCrossing: share(practice(0.6, "1", "The rear follows when it crosses more often than this share of the front")),
  quietCrossing: share(practice(0.3, "1", "… and is calm when it crosses less often than this")),
  busyAmplitude: share(practice(0.6, "1", "The rear follows when it swings further than this share of the front")),
  quietAmplitude: share(practice(0.4, "1", "… and is calm when it swings less than this")),

  wideRear: own(0.4, "V", "Behind a wide-band front: a rear that swings further than this in steady running is busy"),
  calmRear: own(0.25, "V", "… and one that swings less than this is calm"),

  slowSwitch: practice(0.2, "s", "A front sensor slower than this is slow"),
  quickRear: practice(0.2, "s", "A rear sensor quicker than this when air reaches it can hide nothing"),
  slowRear: practice(0.3, "s", "… and one slower than this is slow"),
  leastSwing: practice(0.5, "V", "A good front sensor swings wider than this (0.6 V is usual)"),
  slowPeriod: practice(3, "s", "A front cycle longer than this is slow"),

  trimInvestigate: practice(10, "%", "Total trim beyond this, either way, is looked into"),
  trimTilt: practice(4, "%", "Total trim at idle above cruise by this much points to air that leaks in"),
  richShareHigh: own(80, "%", "The mixture is rich when the front is so for more than this share of closed loop"),
  richShareLow: own(20, "%", "It is lean, or air gets ahead of the sensor, when the front is rich for less than this"),
  bankTrims: own(
    65,
    "%",
    "The banks look swapped where each trim answers to the other's front in more of its moves than this, to its own in fewer",
  ),
  spikeShare: own(2, "%", "More of the front's rich swings cut short than this look like misfire"),
  spikeLength: own(55, "%", "… a rich swing is cut short where it lasts less than this share of those about it …"),
  spikeStep: own(0.0105, "s", "… which samples further apart than this cannot see (100 in a second, unevenly stamped)"),

  fairFlow: own(1.5, "1", "Two recordings compare fairly while their air flows differ by no more than this factor"),
  fairSpeed: own(1.3, "1", "… and their engine speeds by no more than this factor"),
  fairCoolant: own(15, "degC", "… and their coolant temperatures by no more than this"),
  fairCatalyst: own(100, "degC", "… and their catalyst temperatures by no more than this"),
  fairRate: own(
    20,
    "samples/s",
    "Below this rate a recording compares fairly only with one of a like rate, within a factor of 3",
  ),
  repeatDelay: own(
    6,
    "%",
    "One catalyst recorded twice may tell a delay or stored oxygen apart by so much, flow allowed for",
  ),
  repeatLevel: own(10, "%", "… and an amplitude, a level or a ratio of one kind of stretch by so much"),
  repeatTime: own(25, "%", "… and a frequency, a switch time or a lag by so much"),
  // Engine speed within 375 1/min and load within 20 %: "similar conditions" of 13 CCR 1968.2, from memory.
  frameSpeed: memory(375, "1/min", "A recording was where a code was stored while its engine speed lies within this"),
  frameLoad: memory(20, "%", "… and its load, air flow or manifold pressure within this share of the freeze frame's"),
  frameRoadSpeed: own(10, "km/h", "… and its road speed within this"),
  frameThrottle: own(10, "%", "… and its throttle within this"),
  frameLeast: own(1, "s", "… for so long without a break"),
  repeatCount: own(65, "%", "… and the crossings of its own middle by so much: a calm rear crosses it by chance"),
} as const satisfies Record<string, Limit>;

export type LimitName = keyof typeof defaultLimits;
export type Limits = Readonly<Record<LimitName, number>>;
export type LimitOverrides = Readonly<Partial<Record<LimitName, number>>>;

/** The values in force: the table's, but for what the job changed. A value that is no finite number is left out. */
export function limitsInForce(overrides: LimitOverrides = {}): Limits {
  const names = Object.keys(defaultLimits) as LimitName[];
  return Object.fromEntries(
    names.map((name) => {
      const own = overrides[name];
      return [name, own !== undefined && Number.isFinite(own) ? own : defaultLimits[name].value];
    }),
  ) as Limits;
}

/** Limits of comparisons and of freeze frames only: findings do not use them. */
const comparing = /^(fair|repeat|frame)/;

/** What the job changed and findings may rest on, each described. */
export const changedForFindings = (limits: Limits): string[] =>
  (Object.keys(defaultLimits) as LimitName[])
    .filter((name) => limits[name] !== defaultLimits[name].value && !comparing.test(name))
    .map((name) => describeLimit(name, limits));

/** A limit's value as people read it, and its unit: a share in percent, all else as it is stored. */
export function shownLimit(name: LimitName, stored: number): { readonly value: number; readonly unit: Unit } {
  const { unit, isShare }: Limit = defaultLimits[name];
  return isShare ? { value: scaled(stored, 100), unit: "%" } : { value: stored, unit };
}

/** The value to store of one that was typed as people read it. */
export const storedLimit = (name: LimitName, shown: number): number =>
  (defaultLimits[name] as Limit).isShare ? scaled(shown, 0.01) : shown;

/** Without the last digits of a binary product: 7, not 7.000000000000001. */
const scaled = (value: number, times: number): number => Number((value * times).toPrecision(12));

/** "slowSwitch 0.2 s (common practice)", or with "(changed for this job)"; to be shown wherever a limit is used. */
export function describeLimit(name: LimitName, limits: Limits): string {
  const { value, meaning, source } = defaultLimits[name];
  const said = (stored: number) => formatExact(shownLimit(name, stored).value);
  const { unit } = shownLimit(name, value);
  const from = limits[name] === value ? source : `changed for this job, ${said(value)} as delivered`;
  return `${asWritten(meaning)}: ${said(limits[name])}${unit === "1" ? "" : ` ${unit}`} (${from})`;
}
