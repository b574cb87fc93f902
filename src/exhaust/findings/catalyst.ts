// The catalyst's store: what speaks for and against it, and when nothing may be said. Never "replace it": the decision is
// the technician's.

import type { Finding } from "../terms/analysis.ts";
import { describeLimit, type LimitName } from "../terms/limits.ts";
import { saidOf } from "../terms/words.ts";
import { busy, contradiction, partial, shortOnly, swingsBehindWideBand } from "./catalyst-busy.ts";
import { calm } from "./catalyst-calm.ts";
import { gather, type Weighed } from "./catalyst-evidence.ts";
import { again } from "./record-again.ts";
import { checkOf, type Draft, type FindingScene, finding, reason } from "./scene.ts";
import { storeVerdict } from "./store-verdict.ts";

/** The other findings, made before: this one waits for them. */
export function catalystFinding(scene: FindingScene, others: readonly Finding[]): Finding {
  const evidence = gather(scene, others);
  const { worst, swings, liftOff } = evidence;
  const blockedBy = blocked(scene);
  const byStore = blockedBy ? null : storeVerdict(evidence, others, weigh(evidence));
  const anything = byStore || worst || swings.length > 0 || liftOff.verdict !== "none";
  const refusal = blockedBy ?? (anything ? null : unfit(scene));
  const draft = refusal ?? byStore ?? weigh(evidence);
  const limits = refusal ? [] : [...deciding, ...used].map((name) => describeLimit(name, scene.limits));
  return finding("catalyst", {
    for: [...storeReasons(scene, "points-to", draft.verdict), ...evidence.speaksFor],
    against: [...storeReasons(scene, "points-away", draft.verdict), ...evidence.speaksAgainst],
    ...draft,
    dependsOn: [...(draft.dependsOn ?? []), ...limits],
  });
}

/** The store itself as a witness, on the side that the verdict took. */
const storeReasons = ({ measured }: FindingScene, side: Finding["verdict"], verdict: Finding["verdict"]) =>
  side === verdict
    ? [
        reason("store", "oxygen that the catalyst can hold", measured.store),
        reason("storePerLitre", "that for each litre of engine", measured.storePerLitre),
      ]
    : [];

/** The four that decide; the others serve where grams cannot be told. */
const deciding: readonly LimitName[] = ["deadStore", "soundStore", "leastExplained", "storeRows"];
const used: readonly LimitName[] = [
  "busyAmplitude",
  "quietAmplitude",
  "busyCrossing",
  "quietCrossing",
  "shortDelay",
  "longDelay",
];

/** What must be there at all. */
function blocked({ channels, measured }: FindingScene): Draft | null {
  const cannot = (statement: string, next: readonly string[]): Draft => ({ verdict: "cannot-say", statement, next });
  const { rear } = measured.awake;
  if (!channels.rear)
    return cannot("Without a rear sensor nothing tells what the catalyst does.", [again.rearBesideFront]);
  if (!channels.front && !channels.frontLambda && !channels.frontPump) {
    return cannot("Without a front sensor there is nothing to compare the rear sensor with.", [again.frontBesideRear]);
  }
  if (rear && rear.kind !== "narrow-band" && rear.kind !== "unknown")
    return cannot(`The rear channel cannot be judged. ${saidOf("rear", rear.says)}`, [checkOf("rear", rear.kind)]);
  if (rear && rear.awakeFrom === null && rear.bias.value !== null) {
    return cannot(
      `The catalyst cannot be judged by a sensor of which nothing shows that it works. ${saidOf("rear", rear.says)}`,
      [
        "Let the sensors warm up, three minutes at 2500 rpm or a hot drive, then record a hard pull and a lift-off: a rear sensor that is awake shows both.",
      ],
    );
  }
  return null;
}

/** Neither a stretch nor a lift-off that may be judged: the reasons, most telling first. */
function unfit({ measured }: FindingScene): Draft {
  const steady = measured.stretches.filter(({ kind }) => kind !== "overrun" && kind !== "load");
  const longest = [...steady].sort((a, b) => b.to - b.from - (a.to - a.from))[0];
  const why = longest ? longest.because : "No running engine was recorded.";
  const slow = longest?.unfit === "too-slow";
  const front = measured.awake.front?.kind;
  if (front === "five-volt" || front === "inverted") {
    const statement = `This recording cannot judge the catalyst. ${why}`;
    return { verdict: "cannot-say", statement, next: [checkOf("front", front)] };
  }
  return {
    verdict: "cannot-say",
    statement: `This recording cannot judge the catalyst. ${why}`,
    next: [slow ? again.faster : again.cruise, again.liftOffsWithFlow],
  };
}

function weigh(all: Weighed): Draft {
  const { worst, liftOff, swings } = all;
  if (swings[0]?.told === "wide" && liftOff.verdict !== "short") return swingsBehindWideBand(all);
  if (worst?.verdict === "busy") return liftOff.verdict === "long" ? contradiction(all) : busy(all);
  if (worst?.verdict === "partial") return partial(all);
  if (liftOff.verdict === "short") return shortOnly(all);
  return calm(all);
}
