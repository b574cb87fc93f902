// A voltage that the ground adds to both sensors, as the whole recording shows it.

import { percentiles } from "../../signal/statistics/statistics.ts";
import { closingsOf } from "../lift-offs/closings.ts";
import { groundOffset } from "../lift-offs/ground-offset.ts";
import { quantity } from "../terms/words.ts";
import type { FindingScene } from "./scene.ts";

/** Share of the samples that may lie lower by accident. */
const accident = 0.003;

/** V; 0 where nothing shows one. Where the throttle was not recorded, both sensors must have stayed high in a fuel cut. */
function seen({ channels, measured, limits }: FindingScene): number {
  const told = groundOffset(channels, closingsOf(channels, limits), limits);
  if (told !== 0 || !channels.front || !channels.rear || channels.front.unit === "1") return told;
  if ((measured.storeStudy?.cuts ?? 0) === 0) return 0;
  const floors = [channels.front, channels.rear].map(({ series }) => percentiles(series.samples, [accident])[0]!);
  const offset = Math.min(...floors) - limits.groundInAir;
  return offset > limits.groundLeast && offset < limits.groundMost ? offset : 0;
}

/** What is said of it, and what to do; nothing where there is none. */
export function groundSeen(scene: FindingScene): { readonly says: string; readonly next: readonly string[] } {
  const offset = seen(scene);
  if (offset === 0) return { says: "", next: [] };
  const how = offset > 0 ? "higher" : "lower";
  return {
    says: ` Front and rear read about ${quantity(Math.abs(offset), "V")} ${how} in a fuel cut than in air they should: that looks like an offset of their ground.`,
    next: ["Check where the recorder's ground is connected: take it from the sensors' own."],
  };
}
