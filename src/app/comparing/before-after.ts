// Two recordings of one job as before and after: the one that came into the job later is the one after the repair.

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

/** Null unless the reference is another recording of the job, and both are measured. */
export function createBeforeAfter(
  { desk, captureId }: Pick<Ground, "desk" | "captureId">,
  { suspect, reference, parts }: BeforeAfterRule,
): Accessor<BeforeAfter | null> {
  const place = (id: string | null) => desk.job().captures.findIndex((record) => record.id === id);
  return createMemo(() => {
    const [mine, other] = [suspect(), reference()];
    if (!mine || other?.kind !== "job") return null;
    const limits = desk.job().limits ?? {};
    if (place(captureId()) > place(other.summary.id)) {
      const [before, after] = [other.comparable, mine];
      return { before, after, comparison: compareRecordings(after, before, parts(), limits) };
    }
    const [before, after] = [mine, other.comparable];
    return { before, after, comparison: compareRecordings(after, before, parts().map(turned), limits) };
  });
}

const turned = (part: MatchingPart): MatchingPart => ({
  ...part,
  suspect: part.reference,
  reference: part.suspect,
});
