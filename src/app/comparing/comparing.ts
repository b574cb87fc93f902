// The suspect on the bench against a reference: which, how it lies under it, and what differs.

import { type Accessor, createMemo } from "solid-js";
import type { WholeRequest } from "../../../workers/protocol.ts";
import { compareRecordings } from "../../exhaust/comparing/compare.ts";
import type { Comparable, Comparison } from "../../exhaust/comparing/comparison.ts";
import type { LimitOverrides } from "../../exhaust/terms/limits.ts";
import type { Shelf } from "../../job/shelf/shelf.ts";
import type { Readout } from "../../plot/stage/types.ts";
import type { Outcome, Problem } from "../../problem.ts";
import { subject } from "../core/context.ts";
import type { Ground } from "../core/ground.ts";
import { createLatest } from "../core/latest.ts";
import { benchChoices } from "../core/whole-choices.ts";
import type { LayerKind } from "../lanes/layers.ts";
import { createBand, type UsualBand } from "./band.ts";
import { type BeforeAfter, createBeforeAfter } from "./before-after.ts";
import { type Blinking, createBlinking, createBlinkLayer } from "./blink-layer.ts";
import { type Choosing, createChoosing } from "./choosing.ts";
import { createCounterparts } from "./counterparts.ts";
import { createDifferenceLayer } from "./difference-layer.ts";
import { createLaying, type Laying } from "./laying.ts";
import type { Reference } from "./reference.ts";
import { createReferenceLayer } from "./reference-layer.ts";
import { createUsualLayer } from "./usual-layer.ts";

export interface Comparing extends Choosing, Laying {
  readonly shelf: Shelf;
  /** The recording on the bench; null until it is measured. */
  readonly suspect: Accessor<Comparable | null>;
  /** Null until both are measured. */
  readonly comparison: Accessor<Comparison | null>;
  /** Why there is none: the recording on the bench could not be measured. */
  readonly problem: Accessor<Problem | null>;
  /** It will be there in a while. */
  readonly isUnderWay: Accessor<boolean>;
  /** Null unless two recordings of the job are compared. */
  readonly beforeAfter: Accessor<BeforeAfter | null>;
  readonly band: UsualBand;
  readonly blinking: Blinking;
  /** What it lays on the bench's lanes. */
  readonly layers: readonly LayerKind[];
}

export const { Context: ComparingContext, use: useComparing } = subject<Comparing>("Comparing");

export function createComparing(ground: Ground, readouts: Accessor<readonly Readout[]>, shelf: Shelf): Comparing {
  const limits = createMemo(() => ground.desk.job().limits ?? asDelivered);
  const choosing = createChoosing(ground, shelf);
  const { reference } = choosing;
  const { suspect, problem } = createSuspect(ground, reference);
  const laying = createLaying(ground, suspect, choosing);
  const { parts } = laying;
  const comparison = createMemo(() => {
    const [mine, theirs] = [suspect(), reference()?.comparable];
    return mine && theirs ? compareRecordings(mine, theirs, parts(), limits()) : null;
  });
  const band = createBand(ground, { shelf, reference, at: () => suspect()?.liftOffs ?? [] });
  const blinking = createBlinking(() => reference() !== null);
  const counterparts = createCounterparts(ground, reference);
  return {
    shelf,
    ...choosing,
    suspect,
    comparison,
    problem,
    isUnderWay: () => comparison() === null && problem() === null && (reference() !== null || choosing.isAwaited()),
    ...laying,
    beforeAfter: createBeforeAfter(ground, { suspect, reference, parts }),
    band,
    blinking,
    layers: [
      createReferenceLayer(ground, { ...laying, reference, counterparts, readouts }),
      createDifferenceLayer(ground, counterparts, laying.settings),
      createUsualLayer(band, reference),
      createBlinkLayer(blinking),
    ],
  };
}

const asDelivered: LimitOverrides = {};

/** The recording on the bench as a comparison knows it, measured once there is something to compare it with. */
function createSuspect(
  { service, desk, bench, summary, readings }: Ground,
  reference: Accessor<Reference | null>,
): Pick<Comparing, "suspect" | "problem"> {
  const suspectAsk = createMemo(() => {
    const [capture, isMeasured] = [summary(), readings.answered() !== null];
    const choices = benchChoices(desk.job(), bench.state());
    return reference() && capture && isMeasured ? { take: capture.take, choices } : null;
  });
  const measureSuspect = async (ask: WholeRequest, signal: AbortSignal) => {
    const outcome = await service.comparable(ask, { urgency: "beside", signal });
    return signal.aborted ? null : outcome;
  };
  const measured = createLatest(suspectAsk, measureSuspect, { about: ({ take }) => take.captureId });
  const outcome = createMemo(() => measured.value());
  const problemOf = (told: Outcome<Comparable> | null) => (told && !told.ok ? told.problem : null);
  return {
    suspect: createMemo(() => {
      const told = outcome();
      return told?.ok ? told.value : null;
    }),
    problem: () => (reference() ? (problemOf(outcome()) ?? readings.wholeProblem()) : null),
  };
}
