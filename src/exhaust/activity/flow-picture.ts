// Rear activity against how hard the catalyst works, over short windows of steady running.

import { meanOf } from "../../signal/levels/mean.ts";
import { within } from "../../signal/series/reel.ts";
import type { FlowPicture, FlowPoint, Stretch } from "../terms/analysis.ts";
import type { BankChannels } from "../terms/channels.ts";
import type { Limits } from "../terms/limits.ts";
import { anew, type Recall } from "../terms/remembered.ts";
import { flowInWords } from "./flow-words.ts";
import { measureSwing } from "./pair.ts";

/** Long enough for ten cycles at 1 Hz, short enough to show how activity moves with flow, s. Own choice. */
const windowLength = 10;
const leastCycles = 6;

const roles = [
  ["airFlow", "air-flow", "g/s"],
  ["load", "engine-load", "%"],
  ["engineSpeed", "engine-speed", "1/min"],
] as const;

/** Points lie in fit stretches only, in order of time. */
export function flowPicture(
  channels: BankChannels,
  stretches: readonly Stretch[],
  limits: Limits,
  recall: Recall = anew,
): FlowPicture {
  const found = roles.find(([key]) => channels[key] !== null);
  if (!found) return { along: null, points: [], says: flowInWords({ along: null, points: [] }) };
  const [key, role, unit] = found;
  const points = stretches
    .filter((stretch) => stretch.fit)
    .flatMap((stretch) => windowsOf(stretch))
    .flatMap((window): FlowPoint[] => {
      const { from, to } = window;
      const swing = recall(`swing ${from} ${to}`, [], limits, (used) =>
        measureSwing(channels, { span: { from, to }, limits: used, leastCycles }),
      );
      const at = meanOf(within(channels[key]!.series, from, to)).value;
      if (!swing || at === null || swing.cycles < leastCycles) return [];
      const { amplitudeRatio, crossingRatio } = swing;
      return [{ ...window, at, amplitudeRatio, crossingRatio }];
    });
  const along = { role, unit };
  return { along, points, says: flowInWords({ along, points }) };
}

function windowsOf({ from, to, kind, origin }: Stretch): Pick<FlowPoint, "from" | "to" | "kind" | "origin">[] {
  const count = Math.max(1, Math.floor((to - from) / windowLength));
  const length = (to - from) / count;
  const part = (k: number) => ({ from: from + k * length, to: from + (k + 1) * length, kind, origin });
  return Array.from({ length: count }, (_, k) => part(k));
}
