// Suspect against known-good, after against before: what differs, and whether these recordings can tell.

import { difference, ratio, scaled } from "../../signal/combining/combine.ts";
import { notResolvable, type Reading } from "../../signal/numbers/reading.ts";
import { medianOfNumbers } from "../../signal/statistics/statistics.ts";
import { asWritten } from "../../signal/written/words.ts";
import { type LimitOverrides, type Limits, limitsInForce } from "../terms/limits.ts";
import { inWords } from "../terms/words.ts";
import { type SharedReading, sharedReadings } from "./compared-readings.ts";
import {
  type Comparable,
  type Comparison,
  type Difference,
  type MatchingPart,
  type Repair,
  stretchId,
  type Told,
} from "./comparison.ts";
import { type FairnessJudged, judgeFairness } from "./fairness.ts";
import { matchingParts } from "./matching.ts";

/**
 * Pure. A difference is told only where it exceeds what the bounds of both readings, the spread between events, the
 * repeat limit of the table and, for a delay, the air flow account for; and never where the comparison is unfair.
 *
 * @param parts  of each kind of test named here, only these lift-offs or stretches; of all others, all that count.
 */
export function compareRecordings(
  suspect: Comparable,
  reference: Comparable,
  parts: readonly MatchingPart[] = [],
  overrides: LimitOverrides = {},
): Comparison {
  const limits = limitsInForce(overrides);
  const [mine, theirs] = [chosen(suspect, "suspect", parts), chosen(reference, "reference", parts)];
  const fairness = judgeFairness(mine, theirs, limits);
  const flow = flowFactor(mine, theirs, limits);
  const differences = sharedReadings(mine, theirs).map((one) => differenceOf(one, { fairness, flow, limits }));
  return {
    suspect: suspect.name,
    reference: reference.name,
    fair: fairness.fair,
    notKnown: fairness.notKnown,
    matching: matchingParts(mine, theirs, fairness.against, limits),
    differences,
    events: { suspect: mine.liftOffs, reference: theirs.liftOffs },
    ...conclusions(mine, theirs, differences, fairness),
  };
}

function chosen(side: Comparable, which: "suspect" | "reference", parts: readonly MatchingPart[]): Comparable {
  const isIn = (of: MatchingPart["of"], id: string) =>
    parts.every((part) => part.of !== of || part[which].includes(id));
  return {
    ...side,
    liftOffs: side.liftOffs.filter(({ id }) => isIn("lift-off", id)),
    stretches: side.stretches.filter((one) => isIn(one.kind, stretchId(one))),
  };
}

interface Scene {
  readonly fairness: FairnessJudged;
  /** Ratio of delays that the air flow alone accounts for. */
  readonly flow: readonly [low: number, high: number];
  readonly limits: Limits;
}

/**
 * One store is filled in a time that goes as one over the flow. Each meter may be off (airFlowDoubt), independently; with
 * a flow unknown the flows may differ by all that is still called fair.
 */
function flowFactor(suspect: Comparable, reference: Comparable, limits: Limits): readonly [number, number] {
  const middle = ({ liftOffs }: Comparable) => medianOfNumbers(liftOffs.flatMap(({ airFlow }) => airFlow ?? []));
  const factor = middle(reference) / middle(suspect);
  if (!(factor > 0)) return [1 / limits.fairFlow, limits.fairFlow];
  const doubt = (Math.SQRT2 * limits.airFlowDoubt) / 100;
  return [Math.min(1, factor * (1 - doubt)), Math.max(1, factor * (1 + doubt))];
}

function differenceOf(shared: SharedReading, scene: Scene): Difference {
  const { name, label, suspect, reference, by } = shared;
  const share = scene.limits[shared.repeat] / 100;
  const off = difference(suspect, reference, suspect.unit, { independent: true });
  const over =
    by === "ratio"
      ? scaled(ratio(suspect, reference, { independent: true }), 1, "1", { tolerance: share })
      : notResolvable("1", "A ratio makes no sense where zero or the sign means something: see the difference.");
  const unlike = scene.fairness.against.get("all") ?? scene.fairness.against.get(shared.concern);
  const { told, because } = tell(shared, unlike, sideOf(shared, over, off, scene));
  return {
    reading: name,
    label: asWritten(label),
    suspect,
    reference,
    ratio: over,
    difference: off,
    fair: unlike === undefined,
    told,
    says: inPlainWords(told, because),
  };
}

interface Verdict {
  readonly told: Told;
  readonly because: string | null;
}

function tell(shared: SharedReading, unlike: string | undefined, size: -1 | 0 | 1): Verdict {
  if (size === 0) return { told: "not-told-apart", because: null };
  if (unlike) return { told: "not-told-apart", because: `not a fair comparison: ${unlike} differs` };
  const isTime = shared.suspect.unit === "s" && !shared.name.endsWith(".lag");
  return { told: size > 0 ? (isTime ? "longer" : "higher") : isTime ? "shorter" : "lower", because: null };
}

/** 1: the suspect's is larger for certain, -1: smaller, 0: cannot be told. */
function sideOf(shared: SharedReading, over: Reading, off: Reading, { flow, limits }: Pick<Scene, "flow" | "limits">) {
  if (shared.by === "difference") {
    const margin = marginOf(shared, limits);
    return side(off, -margin, margin);
  }
  return side(over, ...(shared.followsFlow ? flow : ([1, 1] as const)));
}

/** Of readings compared by difference, the repeat limit counts against the whole scale of the quantity. */
function marginOf({ suspect, reference, repeat }: SharedReading, limits: Limits): number {
  const scale = { "%": 100, V: 0.45, "1": 1 } as Readonly<Record<string, number>>;
  const own = Math.max(Math.abs(suspect.value ?? 0), Math.abs(reference.value ?? 0));
  return (limits[repeat] / 100) * (scale[suspect.unit] ?? own);
}

function side({ low, high }: Reading, least: number, most: number): -1 | 0 | 1 {
  if (low !== null && low > most) return 1;
  return high !== null && high < least ? -1 : 0;
}

function inPlainWords(told: Told, because: string | null): string {
  if (told !== "not-told-apart") return `clearly ${told}`;
  return because ?? "not told apart by these recordings";
}

function conclusions(
  suspect: Comparable,
  reference: Comparable,
  differences: readonly Difference[],
  { against }: FairnessJudged,
): Pick<Comparison, "says" | "repair"> {
  const unlike = against.get("all") ?? against.get("lift-off");
  if (!leadOf(differences)) {
    const says = "No reading stands in both recordings, so nothing can be compared.";
    return { says, repair: notProved("no-common-test", "the two recordings hold no common test") };
  }
  const fair = differences.filter((one) => one.fair);
  if (unlike) {
    const told = fair.find(({ reading, told }) => told !== "not-told-apart" && !reading.includes(".front."));
    const rest = told
      ? `Where both ran alike: ${sentenceOf(told)}`
      : "Compare parts that match, or record again alike.";
    const repair = notProved("unlike", `${unlike} differs, so it was not the same test`);
    return { says: `Not a fair comparison: ${unlike} differs. ${rest}`, repair };
  }
  const lead = leadOf(fair);
  const says = lead ? sentenceOf(lead) : "Nothing in the two recordings was run alike, so nothing can be compared.";
  return { says, repair: repairOf(suspect, reference, differences) };
}

/** The reading that answers the question: told ones first, stored oxygen before the delay, both before all else. */
function leadOf(differences: readonly Difference[]): Difference | undefined {
  const first = ["storedOxygen", "delay"].flatMap((name) => differences.filter(({ reading }) => reading === name));
  const known = [...first, ...differences].filter(
    ({ ratio, difference }) => ratio.grade !== "not-resolvable" || difference.grade !== "not-resolvable",
  );
  return known.find(({ told }) => told !== "not-told-apart") ?? known[0];
}

function sentenceOf(one: Difference): string {
  const { reading, label, told, suspect, reference, says } = one;
  const values = `${inWords(suspect)} here, ${inWords(reference)} in the reference`;
  if (told === "not-told-apart") return `${label}: ${says}, ${values}.`;
  if (reading === "storedOxygen") {
    return `Clearly ${told === "lower" ? "less" : "more"} oxygen passed before the rear noticed: ${values}.`;
  }
  if (reading === "delay") return `The rear fell clearly ${told === "shorter" ? "sooner" : "later"}: ${values}.`;
  return `${label}: ${says}, ${values}.`;
}

/** Suspect is the recording after the repair, reference the one before. */
function repairOf(after: Comparable, before: Comparable, differences: readonly Difference[]): Repair {
  const grown = differences.find(
    ({ reading, told }) =>
      (reading === "storedOxygen" && told === "higher") || (reading === "delay" && told === "longer"),
  );
  if (!grown) return notProved("not-more", "the same test does not read clearly more than before");
  if (after.finding?.verdict !== "points-away") {
    return notProved("not-sound", "the recording after it does not by itself speak for the catalyst");
  }
  if (before.finding?.verdict === "points-away") {
    return notProved("was-sound", "the recording before it spoke for the catalyst already");
  }
  const says =
    "The gain is shown: the same test under like conditions reads clearly more, and the recording after it speaks for the catalyst.";
  return { told: "proved", reason: "proved", says };
}

const notProved = (reason: Repair["reason"], because: string): Repair => ({
  told: "not-proved",
  reason,
  says: `The gain is not shown: ${because}.`,
});
