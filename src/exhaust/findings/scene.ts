// What every finding looks at, and small words they share.

import type { Reading } from "../../signal/numbers/reading.ts";
import type {
  Analysis,
  Finding,
  FindingId,
  FindingReason,
  LiftOff,
  ReasonPlace,
  SensorKind,
  Span,
  Stretch,
  Verdict,
} from "../terms/analysis.ts";
import type { BankChannels } from "../terms/channels.ts";
import type { HandChecks } from "../terms/hand-checks.ts";
import type { Limits } from "../terms/limits.ts";
import type { Explanation } from "../terms/store-study.ts";
import { inWords, stretchInWords, stretchSpan, tidied } from "../terms/words.ts";
import { switchesInstead } from "./warnings.ts";

export type Measured = Omit<Analysis, "findings">;

export interface FindingScene {
  readonly channels: BankChannels;
  readonly measured: Measured;
  readonly limits: Limits;
  readonly span: Span;
  readonly byHand?: HandChecks | undefined;
  /** The two banks look to be in each other's place. */
  readonly banksSwapped: boolean;
}

/** A finding in the making. */
export interface Draft {
  readonly verdict: Verdict;
  readonly side?: Finding["side"];
  readonly statement: string;
  readonly for?: readonly (FindingReason | null)[];
  readonly against?: readonly (FindingReason | null)[];
  readonly next?: readonly string[];
  readonly dependsOn?: readonly string[];
  readonly explanation?: Explanation;
}

const present = (reasons: readonly (FindingReason | null)[] = []): FindingReason[] =>
  reasons.filter((reason): reason is FindingReason => reason !== null);

export function finding(id: FindingId, draft: Draft): Finding {
  return {
    id,
    verdict: draft.verdict,
    statement: tidied(draft.statement),
    ...(draft.side ? { side: draft.side } : {}),
    for: present(draft.for),
    against: present(draft.against),
    next: draft.next ?? [],
    dependsOn: draft.dependsOn ?? [],
    ...(draft.explanation ? { explanation: draft.explanation } : {}),
  };
}

/** "amplitudeRatio, cruise 20 to 55 s": the reading by its name in the analysis, and where it was taken. */
export const inStretch = (name: string, stretch: Stretch): Placed => ({
  reading: `${name}, ${stretchInWords(stretch)}`,
  at: placeOf(stretch),
});

/** A reading that was taken over the lift-offs that count. */
export const overLiftOffs = (reading: string): Placed => ({ reading, at: { kind: "lift-offs" } });

export const placeOf = ({ from, to }: Stretch): ReasonPlace => ({ kind: "stretch", from, to });

export type Placed = Required<Pick<FindingReason, "reading" | "at">>;

/** A reason with the reading in words behind it; null where there is no reading. */
export function reason(of: string | Placed, says: string, reading: Reading | null | undefined): FindingReason | null {
  if (!reading) return null;
  return { ...(typeof of === "string" ? { reading: of } : of), says: `${says}: ${inWords(reading)}` };
}

/** Lift-offs that count and may be judged. */
export const validLiftOffs = ({ measured }: FindingScene): LiftOff[] =>
  measured.liftOffs.filter((one) => one.setAside === null);

export const fitStretches = ({ measured }: FindingScene): Stretch[] => measured.stretches.filter(({ fit }) => fit);

/**
 * Whether front and rear look to be in each other's place: the rear switches, and the front hardly does. A loop that the
 * front does not drive has nothing else to switch by.
 */
function looksSwapped({ measured: { sensors } }: FindingScene): boolean {
  const { front, rear } = sensors;
  return front !== null && switchesInstead(front.crossings.count ?? 0, rear?.crossings.count ?? 0);
}

interface Misplaced {
  /** As a sentence begins. */
  readonly what: string;
  readonly seen: string;
  readonly next: readonly string[];
  readonly explanation?: Explanation;
}

const leads: Misplaced = {
  what: "Front and rear look swapped",
  seen: "the sensor that is called the rear one switches, and the one that is called the front one hardly does.",
  next: [
    "Check which lead is on which sensor, and which channel is called which. If they are right, test the front sensor.",
  ],
};

const banks: Misplaced = {
  what: "The two banks look swapped",
  seen: "the short trim runs with the front sensor of the other bank. Nothing can be said of one catalyst by the other bank's sensor.",
  next: ["Check which lead is on which bank's sensor, and which channel is called which."],
  explanation: { best: "swapped-banks", asGood: null, separatedBy: "leads-checked" },
};

/** What is said of the catalyst, and of all that it waits for, while sensors are in each other's place; null where they are not. */
export function toPutRight(scene: FindingScene): { readonly catalyst: Draft; readonly others: Draft } | null {
  const misplaced = looksSwapped(scene) ? leads : scene.banksSwapped ? banks : null;
  if (!misplaced) return null;
  const { what, seen, next, explanation } = misplaced;
  const draft = (statement: string): Draft => ({ verdict: "cannot-say", statement: `${what}: ${statement}`, next });
  const others = draft("nothing is said of this until that is settled.");
  return { catalyst: { ...draft(seen), ...(explanation ? { explanation } : {}) }, others };
}

/** What to look at where a channel does not speak as a zirconia sensor does. */
export const checkOf = (place: "front" | "rear", kind: SensorKind): string =>
  kind === "five-volt"
    ? `Look up which kind of ${place} sensor the car has, and check the unit and the range of the channel.`
    : `Check polarity and wiring of the ${place} channel.`;

/** Where a kind of running is meant for people. */
export function whereInWords(stretch: Stretch): string {
  const kind = { idle: "at idle", cruise: "at cruise", load: "under load" } as const;
  const told = stretch.kind in kind ? kind[stretch.kind as keyof typeof kind] : "in steady running";
  return `${told} (${stretchSpan(stretch)})`;
}
