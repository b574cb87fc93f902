// How far the rear swings in steady running behind a wide-band front: there is no front swing to set it against.

import { amplitudeOf } from "../../signal/levels/levels.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import type { Stretch } from "../terms/analysis.ts";
import { pieceOf } from "../terms/edges.ts";
import type { FindingScene } from "./scene.ts";

export interface RearSwing {
  readonly stretch: Stretch;
  readonly swing: Reading;
  readonly told: "wide" | "calm" | "between";
}

/** At idle and cruise with the rear awake, the widest first; empty where the front switches. */
export function rearSwings({ channels, measured, limits }: FindingScene): RearSwing[] {
  const { front, rear } = measured.awake;
  if (front?.kind !== "wide-band" || rear?.kind !== "narrow-band" || rear.awakeFrom === null) return [];
  const awakeFrom = rear.awakeFrom;
  const list = measured.stretches.flatMap((stretch): RearSwing[] => {
    if ((stretch.kind !== "idle" && stretch.kind !== "cruise") || stretch.from < awakeFrom) return [];
    const piece = pieceOf(channels.rear, stretch);
    if (!piece) return [];
    const swing = amplitudeOf(piece.series, piece);
    const told =
      (swing.low ?? 0) > limits.wideRear
        ? "wide"
        : (swing.high ?? Number.POSITIVE_INFINITY) < limits.calmRear
          ? "calm"
          : "between";
    return [{ stretch, swing, told }];
  });
  return list.sort((a, b) => (b.swing.value ?? 0) - (a.swing.value ?? 0));
}
