// How a reference is laid under the suspect, and which parts of the two are compared. Saved with the bench, undone with it.

import { type Accessor, createEffect, createMemo, createSignal, on } from "solid-js";
import { type Comparable, type MatchingPart, stretchId } from "../../exhaust/comparing/comparison.ts";
import { type Shift, shiftByHand } from "../../exhaust/lining-up/line-up.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import type { Laid, PictureSettings } from "../../job/record/job.ts";
import type { Ground } from "../core/ground.ts";
import { handShare, shiftBy, type Way, wayOfPart, waysOf } from "../lining-up/ways.ts";
import type { Reference } from "./reference.ts";

export interface Laying {
  /** What is compared instead of all; nothing where all of it is. */
  readonly parts: Accessor<readonly MatchingPart[]>;
  /** Compares the parts that match, lines the first of them up and shows it. */
  take(part: MatchingPart): Promise<void>;
  /** Compares all lift-offs, or all stretches of the kind, again. */
  takeAll(of: MatchingPart["of"]): void;
  readonly ways: Accessor<readonly Way[]>;
  /** Null until both are measured. */
  readonly shift: Accessor<Shift | null>;
  lineUp(way: Way): Promise<void>;
  shiftTo(shift: Shift): void;
  /** Along by hand, s; what is slid in one go is one step of undo. */
  slide(by: number, isFinal: boolean): void;
  readonly settings: Accessor<PictureSettings>;
  set(change: Partial<PictureSettings>): void;
}

/** What lies under the suspect; `isResumed`: since the page was last open, not newly chosen. */
export interface Underneath {
  readonly reference: Accessor<Reference | null>;
  readonly isResumed: Accessor<boolean>;
}

const plain: PictureSettings = { place: "behind", scale: "common", difference: false };
const asFound: Laid = {};
const all: readonly MatchingPart[] = [];

/** For another reference: only how the picture is drawn stays. */
export const anew = ({ picture }: Laid = asFound): Laid => (picture ? { picture } : asFound);

export function createLaying(
  ground: Ground,
  suspect: Accessor<Comparable | null>,
  { reference, isResumed }: Underneath,
): Laying {
  const { bench, view } = ground;
  /** By the first way that lines the two up. */
  const [found, setFound] = createSignal<Shift | null>(null);
  const laid = createMemo(() => bench.state().laid ?? asFound);
  const lay = (change: Laid, key?: string) =>
    bench.edit((state) => ({ ...state, laid: { ...state.laid, ...change } }), key);
  const parts = createMemo(() => laid().parts ?? all);
  const shift = createMemo(() => (reference() ? (laid().shift ?? found()) : null));
  createEffect(on(reference, () => setFound(null), { defer: true }));
  const ways = createWays(ground, suspect, reference, parts);
  const tellShift = shiftTeller(ground, reference, shift);
  const showFirst = (part = parts()[0]) => {
    const shown = spanOfFirst(suspect(), part);
    if (shown) view.show(shown);
  };
  /**
   * The first way is taken as soon as both are measured, and the first part shown, unless this is where the recording was looked at when the
   * page was last open; failing that, both from their starts.
   */
  createEffect(
    on(ways, async ([first]) => {
      if (found() || !suspect() || !reference()) return;
      await tellShift(first, (told) => {
        setFound(told ?? shiftByHand(0, 0));
        if (!isResumed()) showFirst();
      });
    }),
  );

  return {
    parts,
    async take(part) {
      lay({ parts: [...parts().filter(({ of }) => of !== part.of), part] }, "part");
      const way = ways().find(({ id }) => id === wayOfPart(part));
      await tellShift(way, (told) => {
        if (told) lay({ shift: told }, "part");
        bench.settle();
        showFirst(part);
      });
    },
    takeAll: (of) => lay({ parts: parts().filter((part) => part.of !== of) }),
    ways,
    shift,
    lineUp: (way) => tellShift(way, (told) => told && lay({ shift: told })),
    shiftTo: (by) => lay({ shift: by }, "shift"),
    slide(by, isFinal) {
      const [now, { from, to }] = [shift(), view.view()];
      if (now && by !== 0) lay({ shift: shiftByHand((now.shift.value ?? 0) + by, handShare * (to - from)) }, "slide");
      if (isFinal) bench.settle();
    },
    settings: createMemo(() => ({ ...plain, ...laid().picture })),
    set: (change) => lay({ picture: { ...laid().picture, ...change } }),
  };
}

function createWays(
  { service, desk, summary, view }: Ground,
  suspect: Accessor<Comparable | null>,
  reference: Accessor<Reference | null>,
  parts: Accessor<readonly MatchingPart[]>,
): Accessor<readonly Way[]> {
  return createMemo(() => {
    const [mine, theirs, capture] = [suspect(), reference(), summary()];
    if (!mine || !theirs || !capture) return [];
    const shown = view.view;
    return waysOf({
      service,
      suspect: { comparable: mine, summary: capture },
      reference: theirs,
      parts: parts(),
      middle: () => (shown().from + shown().to) / 2,
      mark: () => shown().from,
      switchLevel: () => desk.limits().switchLevel,
    });
  });
}

/** Hands over what a way tells, null where nothing; not at all where another two are compared by then. */
function shiftTeller(
  { captureId, notices }: Ground,
  reference: Accessor<Reference | null>,
  shift: Accessor<Shift | null>,
) {
  return async (way: Way | undefined, take: (told: Shift | null) => void): Promise<void> => {
    const [mine, theirs] = [captureId(), reference()];
    const outcome = way && (await shiftBy(way, shift()?.shift.value ?? 0));
    if (captureId() !== mine || reference() !== theirs) return;
    if (outcome?.ok && outcome.value.shift.value !== null) return take(outcome.value);
    if (outcome?.ok) notices.say(outcome.value.shift.because ?? "No shift can be told.");
    else if (outcome) notices.show(outcome.problem);
    take(null);
  };
}

/** Of the part that is compared, or of all lift-offs, the first. */
function spanOfFirst(mine: Comparable | null, part: MatchingPart | undefined): Span | undefined {
  const id = part?.suspect[0];
  const stretch = mine?.stretches.find((one) => stretchId(one) === id);
  if (stretch) return stretch;
  const liftOff = mine?.liftOffs.find((one) => id === undefined || one.id === id);
  return liftOff && about(liftOff.at);
}

/** What is shown of a lift-off, s. */
const about = (at: number): Span => ({ from: at - 2, to: at + 6 });
