// Rear activity against how hard the catalyst works, over short windows of steady running.

import { meanOf } from "../../signal/levels/mean.ts";
import { within } from "../../signal/series/reel.ts";
import type { FlowPicture, FlowPoint, Stretch } from "../terms/analysis.ts";
import type { BankChannels } from "../terms/channels.ts";
import type { Limits } from "../terms/limits.ts";
import { anew, type Recall } from "../terms/remembered.ts";
import { quantity } from "../terms/words.ts";
import { measureSwing } from "./pair.ts";

/** Long enough for ten cycles at 1 Hz, short enough to show how activity moves with flow, s. Own choice. */
const windowLength = 10;
const leastCycles = 6;
/** Points this far apart in flow and this different in swing make a picture worth a sentence. Own choice. */
const worthSaying = { flow: 1.5, swing: 0.25 };

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
  if (!found) return { along: null, points: [], says: "Record air flow, load or engine speed to see this." };
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
  return { along: { role, unit }, points, says: sayPicture(points, unit) };
}

function windowsOf({ from, to, kind, origin }: Stretch): Pick<FlowPoint, "from" | "to" | "kind" | "origin">[] {
  const count = Math.max(1, Math.floor((to - from) / windowLength));
  const length = (to - from) / count;
  const part = (k: number) => ({ from: from + k * length, to: from + (k + 1) * length, kind, origin });
  return Array.from({ length: count }, (_, k) => part(k));
}

function sayPicture(points: readonly FlowPoint[], unit: string): string {
  const known = points.filter(({ amplitudeRatio }) => amplitudeRatio.value !== null);
  if (known.length === 0) return "No steady running that could be judged.";
  const sorted = [...known].sort((a, b) => a.at - b.at);
  const [least, most] = [sorted[0]!, sorted.at(-1)!];
  if (most.at < worthSaying.flow * least.at) {
    return `All points lie near ${quantity(least.at, unit)}; a recording at another flow would show whether activity rises with it.`;
  }
  const share = (point: FlowPoint) => quantity(Math.round(100 * point.amplitudeRatio.value!), "%");
  const rise = most.amplitudeRatio.value! - least.amplitudeRatio.value!;
  const told = `the rear swings ${share(least)} of the front at ${quantity(least.at, unit)} and ${share(most)} at ${quantity(most.at, unit)}`;
  return rise > worthSaying.swing
    ? `It holds at low flow and lets go at high flow: ${told}.`
    : `From low to high flow, ${told}.`;
}
