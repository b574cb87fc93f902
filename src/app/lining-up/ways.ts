// The ways in which a reference can be lined up with the suspect.

import type { CaptureService, CaptureSummary } from "../../../workers/protocol.ts";
import {
  type Comparable,
  type ComparedStretch,
  type MatchingPart,
  stretchId,
} from "../../exhaust/comparing/comparison.ts";
import { type Shift, shiftByEvents } from "../../exhaust/lining-up/line-up.ts";
import { cellStep } from "../../exhaust/running/running.ts";
import type { Outcome } from "../../problem.ts";
import { measured } from "../../signal/numbers/reading.ts";

/** A hand sees this much of a shift, as a share of the view. */
export const handShare = 1 / 400;

export interface Way {
  readonly id: string;
  /** "Lift-off 2 on lift-off 1" */
  readonly label: string;
  /** @param now  the shift in force, about which a correlation searches. */
  find(now: number): Promise<Outcome<Shift>>;
}

/** The shift that a way tells, with the way named in it. */
export async function shiftBy({ id, find }: Way, now: number): Promise<Outcome<Shift>> {
  const outcome = await find(now);
  return outcome.ok ? { ok: true, value: { ...outcome.value, way: id } } : outcome;
}

export interface Sides {
  readonly service: CaptureService;
  readonly suspect: { readonly comparable: Comparable; readonly summary: CaptureSummary };
  readonly reference: { readonly comparable: Comparable; readonly summary: CaptureSummary };
  /** The parts that are compared; all where there is none. */
  readonly parts: readonly MatchingPart[];
  /** Middle of the view and its left edge, s of the suspect. */
  readonly middle: () => number;
  readonly mark: () => number;
  /** V. */
  readonly switchLevel: () => number;
}

const plural = { "front-o2": "the fronts", "rear-o2": "the rears", "engine-speed": "the engine speeds" } as const;

/** The first is what a comparison begins with. */
export function waysOf(sides: Sides): readonly Way[] {
  return [...eventWays(sides), ...wakeUps(sides), ...stretchWays(sides), ...correlations(sides), ...crossings(sides)];
}

function eventWays({ suspect, reference }: Sides): Way[] {
  return suspect.comparable.liftOffs.flatMap((mine, i) =>
    reference.comparable.liftOffs.flatMap((theirs, k): Way[] => {
      if (mine.frontFall.value === null || theirs.frontFall.value === null) return [];
      const label = `Lift-off ${i + 1} on lift-off ${k + 1}`;
      return [plain(liftOffWay(mine.id, theirs.id), label, shiftByEvents(mine.frontFall, theirs.frontFall, label))];
    }),
  );
}

const liftOffWay = (mine: string, theirs: string): string => `lift-off ${mine} ${theirs}`;
const stretchWay = (mine: string, theirs: string): string => `stretch ${mine} ${theirs}`;

/** The id of the way that lays the first of a part on the first of its match. */
export function wayOfPart({ of, suspect, reference }: MatchingPart): string {
  return (of === "lift-off" ? liftOffWay : stretchWay)(suspect[0]!, reference[0]!);
}

/** The first stretch of each kind that is compared, start on start. Where running changes is told to a cell of the grid. */
function stretchWays({ suspect, reference, parts }: Sides): Way[] {
  const kinds = [...new Set(suspect.comparable.stretches.map(({ kind }) => kind))];
  return kinds.flatMap((kind): Way[] => {
    const part = parts.find(({ of }) => of === kind);
    const first = ({ stretches }: Comparable, ids: readonly string[] | undefined) =>
      stretches.find((one) => one.kind === kind && (ids?.includes(stretchId(one)) ?? true));
    const [mine, theirs] = [first(suspect.comparable, part?.suspect), first(reference.comparable, part?.reference)];
    if (!mine || !theirs) return [];
    const label = `Start of ${kind} on start of ${kind}`;
    return [
      plain(
        stretchWay(stretchId(mine), stretchId(theirs)),
        label,
        shiftByEvents(startOf(mine), startOf(theirs), label),
      ),
    ];
  });
}

const startOf = ({ from }: ComparedStretch) => measured(from, [from - cellStep, from + cellStep], "s");

function wakeUps({ suspect, reference }: Sides): Way[] {
  return (["front", "rear"] as const).flatMap((side): Way[] => {
    const [mine, theirs] = [suspect.comparable[side]?.woke, reference.comparable[side]?.woke];
    if (!mine || !theirs || mine.value === null || theirs.value === null) return [];
    const label = `${side === "front" ? "Front" : "Rear"} wakes on ${side} wakes`;
    return [plain(`woke ${side}`, label, shiftByEvents(mine, theirs, label))];
  });
}

const plain = (id: string, label: string, shift: Shift): Way => ({
  id,
  label,
  find: async () => ({ ok: true, value: shift }),
});

/** How much of both is laid over each other, and how far is searched, s. */
const reach = 6;
const most = 2;

function correlations({ service, suspect, reference, middle }: Sides): Way[] {
  return (["front-o2", "rear-o2", "engine-speed"] as const).flatMap((role): Way[] => {
    const [mine, theirs] = [suspect, reference].map(({ summary }) => summary.channels.find((c) => c.role === role));
    if (!mine || !theirs) return [];
    return [
      {
        id: `like ${role}`,
        label: `Where ${plural[role]} run most alike`,
        find: (guess) =>
          service.lineUp({
            suspect: { take: suspect.summary.take, channelId: mine.id },
            reference: { take: reference.summary.take, channelId: theirs.id },
            at: middle(),
            reach,
            guess,
            most,
          }),
      },
    ];
  });
}

/** After the left edge of the view in both, as they lie now. */
function crossings({ service, suspect, reference, mark, switchLevel }: Sides): Way[] {
  return (["front-o2", "rear-o2"] as const).flatMap((role): Way[] => {
    const [mine, theirs] = [suspect, reference].map(({ summary }) => summary.channels.find((c) => c.role === role));
    if (!mine || !theirs) return [];
    const label = `First crossing of ${plural[role]} in view`;
    const ask = ({ take }: CaptureSummary, channelId: string, after: number) =>
      service.firstCrossing({ take, channelId, after, level: switchLevel() });
    return [
      {
        id: `crossing ${role}`,
        label,
        async find(now) {
          const one = await ask(suspect.summary, mine.id, mark());
          const other = await ask(reference.summary, theirs.id, mark() - now);
          if (!one.ok) return one;
          return other.ok ? { ok: true, value: shiftByEvents(one.value, other.value, label) } : other;
        },
      },
    ];
  });
}
