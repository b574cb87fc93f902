// The recording on the desk as its bench corrects it.

import { type Accessor, createMemo } from "solid-js";
import { takenSummary } from "../../../workers/client.ts";
import type { CaptureSummary } from "../../../workers/protocol.ts";
import { identityOf } from "../../capture/model/take.ts";
import { correctionsOf } from "./corrections.ts";
import type { Ground } from "./ground.ts";

/** A new one only where a change on the bench changes what it holds; null while it is not at hand. */
export function createSummary({
  bench,
  captures,
  captureId,
}: Pick<Ground, "bench" | "captures" | "captureId">): Accessor<CaptureSummary | null> {
  const asRead = createMemo(() => captures.asRead(captureId() ?? ""));
  const settings = createMemo(
    () => ({ corrections: correctionsOf(bench.state().channels), bank: bench.state().bank }),
    undefined,
    { equals: saysTheSame },
  );
  return createMemo(() => {
    const known = bench.record() ? asRead() : null;
    return known && takenSummary(known, settings());
  });
}

/** Of plain data. */
export const saysTheSame = (one: unknown, other: unknown): boolean => identityOf(one) === identityOf(other);
