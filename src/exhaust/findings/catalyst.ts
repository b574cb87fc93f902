// The catalyst's store: what speaks for and against it, and when nothing may be said. Never "replace it": the decision is
// the technician's.

import type { Finding, FindingReason, Stretch } from "../analysis.ts";
import { describeLimit, type LimitName, type Limits } from "../limits.ts";
import { asShare, counted, inWords, number } from "../words.ts";
import { type LiftOffEvidence, liftOffEvidence } from "./lift-off-evidence.ts";
import { type RearQuickness, rearQuickness } from "./rear-sensor.ts";
import {
  type Draft,
  type FindingScene,
  finding,
  fitStretches,
  inStretch,
  reason,
  validLiftOffs,
  whereInWords,
} from "./scene.ts";
import { type SteadyEvidence, steadyEvidence } from "./steady.ts";

/** The other findings, made before: this one waits for them. */
export function catalystFinding(scene: FindingScene, others: readonly Finding[]): Finding {
  const evidence = gather(scene, others);
  const draft =
    blocked(scene) ?? (evidence.worst || evidence.liftOff.verdict !== "none" ? weigh(evidence) : unfit(scene));
  return finding("catalyst", {
    for: evidence.speaksFor,
    against: evidence.speaksAgainst,
    dependsOn: used.map((name) => describeLimit(name, scene.limits)),
    ...draft,
  });
}

const used: readonly LimitName[] = [
  "busyAmplitude",
  "busyCrossing",
  "quietAmplitude",
  "quietCrossing",
  "shortDelay",
  "longDelay",
];

interface Weighed {
  readonly scene: FindingScene;
  readonly steady: readonly SteadyEvidence[];
  readonly worst: SteadyEvidence | null;
  readonly liftOff: LiftOffEvidence;
  readonly rear: RearQuickness;
  /** Findings that must be cleared up before the catalyst is blamed. */
  readonly waitsFor: readonly Finding[];
  readonly speaksFor: readonly (FindingReason | null)[];
  readonly speaksAgainst: readonly (FindingReason | null)[];
}

function gather(scene: FindingScene, others: readonly Finding[]): Weighed {
  const steady = steadyEvidence(fitStretches(scene), scene.limits);
  const liftOff = liftOffEvidence(validLiftOffs(scene), scene.limits);
  const busy = steady.filter(({ verdict }) => verdict === "busy" || verdict === "partial");
  const calm = steady.filter(({ verdict }) => verdict === "quiet");
  const delay =
    liftOff.delay &&
    reason("liftOff.delay", `rear fell after the front, ${counted(liftOff.count, "lift-off")}`, liftOff.delay);
  return {
    scene,
    steady,
    worst: steady[0] ?? null,
    liftOff,
    rear: rearQuickness(scene),
    waitsFor: others.filter(({ id, verdict }) => verdict === "points-to" && mustComeFirst(id, liftOff)),
    speaksFor: [
      ...busy.flatMap(({ stretch }) => ratios(stretch)),
      wideSwing(scene),
      liftOff.verdict === "short" ? delay : null,
    ],
    speaksAgainst: [...calm.flatMap(({ stretch }) => ratios(stretch)), liftOff.verdict === "long" ? delay : null],
  };
}

/**
 * A slow front sensor shortens the lift-off's delay as well as it makes the rear busy. A leak, a wrong mixture or a misfire
 * makes the rear busy, but leaves the lift-off alone: without fuel there is nothing to burn wrongly.
 */
function mustComeFirst(id: Finding["id"], liftOff: LiftOffEvidence): boolean {
  if (id === "front-sensor") return true;
  return (id === "air-leak" || id === "mixture" || id === "misfire") && liftOff.verdict !== "short";
}

function ratios(stretch: Stretch): (FindingReason | null)[] {
  return [
    reason(inStretch("amplitudeRatio", stretch), "rear swing over front swing", stretch.activity?.amplitudeRatio),
    reason(inStretch("crossingRatio", stretch), "rear crossings over front crossings", stretch.activity?.crossingRatio),
  ];
}

/** Percentiles do not suffer from slow sampling: a wide rear swing in steady running counts, even at one sample a second. */
function wideSwing({ measured, limits }: FindingScene): FindingReason | null {
  const slow = measured.stretches.find(
    ({ fit, kind, activity, because }) =>
      !fit &&
      (kind === "idle" || kind === "cruise" || kind === "unsteady") &&
      because.startsWith("Sampled too slowly") &&
      (activity?.amplitudeRatio.low ?? 0) > limits.busyAmplitude,
  );
  if (!slow) return null;
  return reason(
    inStretch("amplitudeRatio", slow),
    "the rear swings widely, too slowly sampled to count how often",
    slow.activity?.amplitudeRatio,
  );
}

/** What must be there at all. */
function blocked({ channels, measured }: FindingScene): Draft | null {
  const cannot = (statement: string, next: readonly string[]): Draft => ({ verdict: "cannot-say", statement, next });
  const { rear } = measured.awake;
  if (!channels.rear)
    return cannot("Without a rear sensor nothing tells what the catalyst does.", [
      "Record the rear oxygen sensor together with the front one.",
    ]);
  if (!channels.front && !channels.frontLambda) {
    return cannot("Without a front sensor there is nothing to compare the rear sensor with.", [
      "Record the front oxygen sensor together with the rear one.",
    ]);
  }
  if (rear && rear.kind !== "narrow-band" && rear.kind !== "unknown")
    return cannot(`The rear channel cannot be judged. ${rear.says}`, [
      "Check unit, polarity and wiring of the rear channel.",
    ]);
  if (rear && rear.awakeFrom === null && rear.bias.value !== null) {
    return cannot(`The rear sensor was not awake, so the catalyst cannot be judged. ${rear.says}`, [
      "Let the sensors warm up, three minutes at 2,500 1/min or a hot drive, then record again.",
    ]);
  }
  return null;
}

/** Neither a stretch nor a lift-off that may be judged: the reasons, most telling first. */
function unfit({ measured }: FindingScene): Draft {
  const steady = measured.stretches.filter(({ kind }) => kind !== "overrun" && kind !== "load");
  const longest = [...steady].sort((a, b) => b.to - b.from - (a.to - a.from))[0];
  const why = longest ? longest.because : "No running engine was recorded.";
  const slow = why.startsWith("Sampled too slowly");
  const wide = slow && wideSwing;
  return {
    verdict: "cannot-say",
    statement: `This recording cannot judge the catalyst. ${why}`,
    next: [
      slow
        ? "Record at 200 samples/s or more."
        : "Record steady cruise for 60 s, warm and in closed loop, at 200 samples/s or more.",
      ...(wide ? [] : []),
      "Record three lift-offs with throttle, engine speed and air flow.",
    ],
  };
}

function weigh(all: Weighed): Draft {
  const { worst, liftOff } = all;
  if (worst?.verdict === "busy") return liftOff.verdict === "long" ? contradiction(all) : busy(all);
  if (worst?.verdict === "partial") return partial(all);
  if (liftOff.verdict === "short") return shortOnly(all);
  return calm(all);
}

/** A mimic that points to itself comes first; a slow rear does not matter here, for it can only hide. */
function busy(all: Weighed): Draft {
  const busyOnes = all.steady.filter(({ verdict }) => verdict === "busy");
  const { stretch } = busyOnes.find((one) => one.stretch.kind !== "idle") ?? all.worst!;
  const seen = `${follows(stretch)} ${delaySentence(all.liftOff)}`.trim();
  if (all.waitsFor.length > 0) return waiting(all, seen);
  if (stretch.kind === "idle" && all.liftOff.verdict !== "short") return idleBusy(all, seen);
  const idleCalm = all.steady.some((one) => one.verdict === "quiet" && one.stretch.kind === "idle");
  const where =
    idleCalm && stretch.kind === "cruise"
      ? " It holds at idle and lets go at cruise: that is how a weak catalyst begins."
      : "";
  return {
    verdict: "points-to",
    statement: `${seen}${where} The catalyst stores hardly any oxygen there: this points to the catalyst.`,
    next: [
      ...(all.liftOff.verdict === "none" ? ["Record three lift-offs as a second witness."] : []),
      "Rule out exhaust leaks by a pressure or smoke test, and find what wore the catalyst down, before parts are chosen.",
      "Compare with a known-good recording at the same air flow, or with the maker's limit.",
    ],
  };
}

/** A catalyst that cools while it idles lets everything through, and so does a leak, which shows at idle most. */
function idleBusy(all: Weighed, seen: string): Draft {
  const calmCruise = all.steady.some(({ stretch, verdict }) => stretch.kind === "cruise" && verdict === "quiet");
  const but = calmCruise ? "at cruise it is calm" : "no cruise could be judged";
  return {
    verdict: "cannot-say",
    statement: `${seen} That looks like a worn catalyst, but ${but}, and idle alone does not settle it: a catalyst that has cooled down at idle, or an exhaust leak, looks the same.`,
    next: [
      "Drive it hot, then record steady cruise for 60 s and three lift-offs.",
      "Test the exhaust for leaks between the sensors.",
    ],
  };
}

function follows(stretch: Stretch): string {
  const { amplitudeRatio, crossingRatio, ownLevelRatio } = stretch.activity!;
  const swing = Math.round(100 * (amplitudeRatio.value ?? 0));
  const own = (crossingRatio.value ?? 0) < (ownLevelRatio.value ?? 0) - 0.1;
  const often = Math.round(100 * ((own ? ownLevelRatio : crossingRatio).value ?? 0));
  const level = own ? "its own middle" : "0.45 V";
  return `The rear sensor follows the front one ${whereInWords(stretch)}: it swings ${swing} % as far and crosses ${level} ${often} times for every 100 times of the front.`;
}

function delaySentence({ delay, count }: LiftOffEvidence): string {
  if (!delay) return "";
  const events = counted(count, "lift-off");
  if (delay.grade === "at-least") return `After lifting off the rear held on for ${inWords(delay)} (${events}).`;
  return `After lifting off the rear fell ${inWords(delay)} after the front (${events}).`;
}

const names: Readonly<Record<string, string>> = {
  "front-sensor": "the front sensor",
  "air-leak": "the air leak",
  mixture: "the fuel mixture",
  misfire: "the misfire",
};

function waiting({ waitsFor }: Weighed, seen: string): Draft {
  const first = waitsFor.map(({ id }) => names[id] ?? id).join(" and ");
  return {
    verdict: "cannot-say",
    statement: `${seen} But ${first} must be put right first: it can look the same. After that, record again.`,
    next: [`Put ${first} right, then repeat this recording.`],
    dependsOn: waitsFor.map(({ statement }) => statement),
  };
}

function contradiction({ worst, liftOff }: Weighed): Draft {
  return {
    verdict: "cannot-say",
    statement: `Two witnesses disagree. ${follows(worst!.stretch)} ${delaySentence(liftOff)} A store that is quickly used up at this flow would do that, and so would a leak or a rich-running engine.`,
    next: [
      "Look for exhaust leaks between the sensors, and at the fuel trims.",
      "Repeat steady cruise and three lift-offs in one recording, at the same engine speed.",
    ],
  };
}

function partial(all: Weighed): Draft {
  const { worst, liftOff } = all;
  const { amplitudeRatio, crossingRatio } = worst!.stretch.activity!;
  const large = (amplitudeRatio.value ?? 0) > (crossingRatio.value ?? 0);
  const seen = large
    ? `${whereCapital(worst!.stretch)} the rear swings far (${asShare(amplitudeRatio)} of the front) but seldom: the catalyst fills and empties now and then, a partial loss.`
    : `${whereCapital(worst!.stretch)} the rear crosses often (${asShare(crossingRatio)} of the front) but swings little: ripple about the middle.`;
  if (large && liftOff.verdict === "short") {
    if (all.waitsFor.length > 0) return waiting(all, seen);
    return {
      verdict: "points-to",
      statement: `${seen} ${delaySentence(liftOff)} Both together point to the catalyst.`,
      next: ["Rule out exhaust leaks, and find what wore the catalyst down, before parts are chosen."],
    };
  }
  return {
    verdict: "cannot-say",
    statement: `${seen} ${delaySentence(liftOff)} The two measures disagree, and nothing else settles it.`,
    next: ["Record steady cruise at a higher air flow for 60 s, and three lift-offs, at 200 samples/s or more."],
  };
}

const whereCapital = (stretch: Stretch): string => {
  const where = whereInWords(stretch);
  return `${where.charAt(0).toUpperCase()}${where.slice(1)}`;
};

/** At high flow even a good store fills at once; so air flow must be known, and moderate. Own choice, from the store's size. */
const mostFlow = 12;

function shortOnly(all: Weighed): Draft {
  const { liftOff, worst } = all;
  const seen = delaySentence(liftOff);
  if (worst?.verdict === "quiet") {
    return {
      verdict: "cannot-say",
      statement: `Two witnesses disagree. In steady running the rear is calm, but ${lower(seen)}`,
      next: [
        "Repeat the lift-offs from a lower engine speed with air flow recorded, and steady cruise at a higher flow.",
      ],
    };
  }
  if (worst && isActive(worst.stretch, all.scene.limits)) return shortAndActive(all, worst.stretch);
  const enough = liftOff.count >= 2 && liftOff.airFlow !== null && liftOff.airFlow <= mostFlow;
  if (!enough) {
    return {
      verdict: "cannot-say",
      statement: `${seen} That is soon, but lift-offs alone do not settle it here${liftOff.airFlow === null ? ": the air flow is not known" : ""}.`,
      next: ["Record steady cruise for 60 s at 200 samples/s or more, and the air flow with the lift-offs."],
    };
  }
  if (all.waitsFor.length > 0) return waiting(all, seen);
  return {
    verdict: "points-to",
    statement: `${seen} At ${number(liftOff.airFlow!)} g/s of air that leaves room for hardly any stored oxygen: this points to the catalyst.`,
    next: ["Record steady cruise for 60 s as a second witness.", "Rule out exhaust leaks before parts are chosen."],
  };
}

/** Clearly more than a calm rear, though not as busy as one that follows: with a short lift-off that is enough. */
function isActive({ activity }: Stretch, limits: Limits): boolean {
  if (!activity) return false;
  const { amplitudeRatio, crossingRatio, ownLevelRatio } = activity;
  const often = Math.max(crossingRatio.low ?? 0, ownLevelRatio.low ?? 0);
  return (amplitudeRatio.low ?? 0) > limits.quietAmplitude && often > limits.quietCrossing;
}

function shortAndActive(all: Weighed, stretch: Stretch): Draft {
  const seen = `${follows(stretch)} ${delaySentence(all.liftOff)}`;
  if (all.waitsFor.length > 0) return waiting(all, seen);
  return {
    verdict: "points-to",
    statement: `${seen} Both together point to the catalyst.`,
    next: ["Rule out exhaust leaks, and find what wore the catalyst down, before parts are chosen."],
  };
}

const lower = (text: string): string => `${text.charAt(0).toLowerCase()}${text.slice(1)}`;

/** Nothing speaks against the catalyst: enough for "points away" only where the recording could have shown a bad one. */
function calm(all: Weighed): Draft {
  const { steady, worst, liftOff, rear } = all;
  const cruise = steady.find(({ stretch, verdict }) => stretch.kind === "cruise" && verdict === "quiet");
  const between = steady.some(({ verdict }) => verdict === "between");
  if (rear.told === "slow") {
    return {
      verdict: "cannot-say",
      statement: "The rear sensor is calm, but it is slow, and a slow rear sensor can hide a dead catalyst.",
      next: ["Test or renew the rear sensor, then repeat this recording."],
    };
  }
  if (between) return grey(all);
  if (liftOff.verdict === "long") {
    return {
      verdict: "points-away",
      statement: `${delaySentence(liftOff)} ${cruise ? `${calmIn(cruise.stretch)} ` : ""}The catalyst stores oxygen: this points away from it.`,
      next: cruise ? [] : ["Steady cruise was not judged: record it as well, for a weak catalyst lets go there first."],
    };
  }
  if (cruise && rear.told === "quick") {
    return {
      verdict: "points-away",
      statement: `${calmIn(cruise.stretch)} ${delaySentence(liftOff)} The rear sensor is awake and quick, so the calm comes from the catalyst: this points away from it.`,
    };
  }
  if (!worst) return onlyLiftOffs(all);
  return idleOnly(all, cruise !== undefined);
}

function calmIn(stretch: Stretch): string {
  const { amplitudeRatio, crossingRatio } = stretch.activity!;
  return `${whereCapital(stretch)} the rear sensor stays calm: its swing is ${asShare(amplitudeRatio)} of the front's, its crossings ${asShare(crossingRatio)}.`;
}

function grey({ steady, liftOff }: Weighed): Draft {
  const one = steady.find(({ verdict }) => verdict === "between")!;
  const activity = one.stretch.activity;
  const told = activity
    ? ` swing ${asShare(activity.amplitudeRatio)}, crossings ${asShare(activity.crossingRatio)} of the front's.`
    : "";
  return {
    verdict: "cannot-say",
    statement:
      `${whereCapital(one.stretch)} the rear is neither calm nor busy:${told} ${delaySentence(liftOff)}`.trim(),
    next: ["Compare with a known-good recording at the same air flow, and record steady cruise at a higher flow."],
  };
}

function onlyLiftOffs({ liftOff }: Weighed): Draft {
  return {
    verdict: "cannot-say",
    statement: `${delaySentence(liftOff)} That is neither clearly soon nor clearly late, and no steady running could be judged.`,
    next: ["Record steady cruise for 60 s, warm and in closed loop, at 200 samples/s or more."],
  };
}

function idleOnly({ worst, liftOff }: Weighed, cruise: boolean): Draft {
  const seen = calmIn(worst!.stretch);
  if (cruise) {
    return {
      verdict: "cannot-say",
      statement: `${seen} ${delaySentence(liftOff)} But nothing shows that the rear sensor is quick, and a slow one would look the same.`,
      next: ["Record three lift-offs at 200 samples/s or more: they show how quickly the rear sensor falls."],
    };
  }
  const what =
    worst!.stretch.kind === "idle"
      ? "Idle alone never clears a catalyst: a weak one lets go at cruise"
      : "Nothing recorded says at what engine speed this was, and a weak catalyst lets go at cruise";
  return {
    verdict: "cannot-say",
    statement: `${seen} ${delaySentence(liftOff)} ${what}.`,
    next: ["Record steady cruise for 60 s with engine speed and air flow, and three lift-offs."],
  };
}
