// Two recordings of one job as before and after: as a person called them, never inferred.

import { type Accessor, createMemo } from "solid-js";
import { compareRecordings } from "../../exhaust/comparing/compare.ts";
import type { Comparable, Comparison, MatchingPart } from "../../exhaust/comparing/comparison.ts";
import type { Ground } from "../core/ground.ts";
import type { Reference } from "./reference.ts";

export interface BeforeAfter {
  readonly before: Comparable;
  readonly after: Comparable;
  /** After as the suspect, before as the reference. */
  readonly comparison: Comparison;
}

export interface BeforeAfterRule {
  readonly suspect: Accessor<Comparable | null>;
  readonly reference: Accessor<Reference | null>;
  readonly parts: Accessor<readonly MatchingPart[]>;
}

/** Null unless the reference is another recording of the job, one is called "before" and the other "after", and both are measured. */
export function createBeforeAfter(
  { desk, captureId }: Pick<Ground, "desk" | "captureId">,
  { suspect, reference, parts }: BeforeAfterRule,
): Accessor<BeforeAfter | null> {
  const stageOf = (id: string | null) => desk.job().captures.find((record) => record.id === id)?.stage;
  return createMemo(() => {
    const [mine, other] = [suspect(), reference()];
    if (!mine || other?.kind !== "job") return null;
    const [here, there] = [stageOf(captureId()), stageOf(other.summary.id)];
    const limits = desk.job().limits ?? {};
    if (here === "after" && there === "before") {
      const [before, after] = [other.comparable, mine];
      return { before, after, comparison: compareRecordings(after, before, parts(), limits) };
    }
    if (here !== "before" || there !== "after") return null;
    const [before, after] = [mine, other.comparable];
    return { before, after, comparison: compareRecordings(after, before, parts().map(turned), limits) };
  });
}

const turned = (part: MatchingPart): MatchingPart => ({
  ...part,
  suspect: part.reference,
  reference: part.suspect,
});
