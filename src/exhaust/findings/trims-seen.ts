// Total fuel trim at idle and at cruise, for the findings that rest on it.

import type { Reading } from "../../signal/numbers/reading.ts";
import type { Stretch } from "../terms/analysis.ts";
import type { FindingScene } from "./scene.ts";

export interface TrimsSeen {
  readonly idle: TrimSeen | null;
  readonly cruise: TrimSeen | null;
}

export interface TrimSeen {
  readonly stretch: Stretch;
  readonly total: Reading;
}

/** A trim that the loop has settled is a right one; without a front, the trims are all there is. */
export function frontSwitches({ front }: Stretch): boolean {
  const share = front?.richShare.value;
  return share == null || (share > 0 && share < 100);
}

/** The longest stretch of each kind with a total trim. */
export function trimsSeen({ measured }: FindingScene): TrimsSeen {
  const longest = (kind: "idle" | "cruise"): TrimSeen | null => {
    const known = measured.stretches.filter((one) => one.kind === kind && one.trims?.total.value != null);
    const best = known.sort((a, b) => b.to - b.from - (a.to - a.from))[0];
    return best ? { stretch: best, total: best.trims!.total } : null;
  };
  return { idle: longest("idle"), cruise: longest("cruise") };
}
