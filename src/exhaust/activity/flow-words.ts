// Rear activity against flow in a sentence: apart from what measures it, so that the page can say it anew in other units.

import type { FlowPicture, FlowPoint } from "../terms/analysis.ts";
import { quantity } from "../terms/words.ts";

/** Points this far apart in flow and this different in swing make a picture worth a sentence. Own choice. */
const worthSaying = { flow: 1.5, swing: 0.25 };

/** What the points say, in the units in force. */
export function flowInWords({ along, points }: Pick<FlowPicture, "along" | "points">): string {
  if (!along) return "Record air flow, load or engine speed to see this.";
  const { unit } = along;
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
