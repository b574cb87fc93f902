// Laying another recording of the job on the time axis of the one on the bench: putting it there, shifting it, taking it away.

import { type Accessor, createEffect, createSignal, on } from "solid-js";
import type { CaptureSummary } from "../../../workers/protocol.ts";
import { type Shift, shiftByHand } from "../../exhaust/lining-up/line-up.ts";
import { notLinedUp } from "../../exhaust/lining-up/same-run.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import { addCompanion, removeCompanion, shiftCompanion } from "../../job/edits/companions.ts";
import type { CaptureRecord } from "../../job/record/job.ts";
import { settle } from "../../problem.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import { broughtToHand } from "../core/at-hand.ts";
import type { CompanionView } from "../core/companions.ts";
import { subject } from "../core/context.ts";
import type { Ground } from "../core/ground.ts";
import { measuredOn } from "../core/measured-on.ts";
import { benchChoices } from "../core/whole-choices.ts";
import type { Dimensions } from "../dimensions/dimensions.ts";
import { handShare, shiftBy, type Way, waysOf } from "../lining-up/ways.ts";
import { runWays } from "./run-ways.ts";

/** A recording that was just opened beside another, and may be of the same run. */
export interface Offer {
  readonly opened: CaptureRecord;
  readonly onto: CaptureRecord;
}

export interface SameRun {
  /** Name of the recording that is being laid on the axis. */
  readonly adding: Accessor<string | null>;
  /** Lines it up where all that both recorded runs most alike; where that cannot be told, both begin at 0. */
  add(record: CaptureRecord): Promise<void>;
  remove(captureId: string): void;
  shift(captureId: string, shift: Shift): void;
  /** The one that was added last, by a step that the hand can see in this view; 1 later, -1 earlier. */
  nudge(way: 1 | -1): void;
  lineUp(companion: CompanionView, way: Way): Promise<void>;
  /** Events of both are measured when this is first asked. */
  ways(companion: CompanionView): Promise<readonly Way[]>;
  readonly offer: Accessor<Offer | null>;
  makeOffer(offer: Offer | null): void;
  /** Back to the recording that was on the bench, with the new one on its axis. */
  takeOffer(): Promise<void>;
}

export const { Context: SameRunContext, use: useSameRun } = subject<SameRun>("The same run");

export function createSameRun(ground: Ground & { readonly dimensions: Dimensions }): SameRun {
  const { service, captures, bench, summary, view, notices, companions, dimensions, captureId, desk } = ground;
  const [adding, setAdding] = createSignal<string | null>(null);
  const [offer, makeOffer] = createSignal<Offer | null>(null);
  createEffect(on(captureId, (id) => offer()?.opened.id !== id && makeOffer(null), { defer: true }));

  const shift = (id: string, next: Shift, key?: string) =>
    bench.edit((state) => dimensions.readAgain(shiftCompanion(state, id, next)), key);
  const add = async (record: CaptureRecord) => {
    const here = captureId();
    // Whoever lays one of the two on the other's axis, here or in the list, has answered whether they are one run.
    if (offer()?.onto.id === record.id || offer()?.opened.id === record.id) makeOffer(null);
    setAdding(record.fileName);
    try {
      const outcome = await broughtToHand(record, captures);
      if (!outcome.ok) return notices.show(outcome.problem);
      const [mine, theirs] = [summary(), outcome.value];
      if (!mine) return notices.say("The recording on the bench is not at hand: open its file first.");
      const found = await firstShift(runWays(service, { mine, theirs }));
      if (captureId() !== here) return;
      bench.edit((state) => addCompanion(state, { captureId: record.id, shift: found }, record.bench));
      const told = found.shift.value === null ? ", not lined up yet" : "";
      notices.say(`${record.fileName} lies on this time axis${told}.`);
    } finally {
      setAdding(null);
    }
  };
  return {
    adding,
    add,
    remove: (id) => bench.edit((state) => removeCompanion(state, id)),
    shift,
    nudge(way) {
      const last = companions.list().at(-1);
      if (last) shift(last.captureId, nudged(last.by, way, view.view()), `nudge-${last.captureId}`);
    },
    async lineUp(companion, way) {
      const outcome = await shiftBy(way, companion.by);
      if (!outcome.ok) return notices.show(outcome.problem);
      if (outcome.value.shift.value === null)
        return notices.say(outcome.value.shift.because ?? "No shift can be told.");
      shift(companion.captureId, outcome.value);
    },
    async ways({ summary: theirs, record }) {
      const mine = summary();
      if (!mine || !theirs) return [];
      return [...runWays(service, { mine, theirs }), ...(await eventWays(ground, { mine, theirs, record }))];
    },
    offer,
    makeOffer,
    async takeOffer() {
      const taken = offer();
      if (!taken) return;
      makeOffer(null);
      ground.chooseCapture(taken.onto.id);
      await add(desk.job().captures.find(({ id }) => id === taken.opened.id) ?? taken.opened);
    },
  };
}

function nudged(by: Seconds, way: 1 | -1, { from, to }: Span): Shift {
  const step = handShare * (to - from);
  return shiftByHand(by + way * step, step);
}

/** By the first way that tells a shift; not lined up where none does. */
async function firstShift([first]: readonly Way[]): Promise<Shift> {
  const outcome = first ? await shiftBy(first, 0) : null;
  return outcome?.ok && outcome.value.shift.value !== null ? outcome.value : notLinedUp;
}

interface Two {
  readonly mine: CaptureSummary;
  readonly theirs: CaptureSummary;
  readonly record: CaptureRecord;
}

/** By what both show of lift-offs and stretches: both are measured for it; none where either cannot be. */
async function eventWays(ground: Ground, { mine, theirs, record }: Two): Promise<readonly Way[]> {
  const { service, bench, readings, desk, view } = ground;
  if (!readings.whole()) return [];
  const request = { take: mine.take, choices: benchChoices(desk.job(), bench.state()) };
  const own = await service.comparable(request, { urgency: "beside" });
  if (!own.ok) return [];
  const other = await settle(() => measuredOn(theirs, ground, record));
  if (!other.ok) return [];
  const shown = view.view;
  return waysOf({
    service,
    suspect: { comparable: own.value, summary: mine },
    reference: { comparable: other.value, summary: theirs },
    parts: [],
    middle: () => (shown().from + shown().to) / 2,
    mark: () => shown().from,
    switchLevel: () => desk.limits().switchLevel,
  });
}
