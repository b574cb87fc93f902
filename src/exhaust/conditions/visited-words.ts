// The conditions of a freeze frame in words: what they are, whether a recording has been there, and where to drive next.

import { formatValue } from "../../signal/written/reading-text.ts";
import type { Visited, VisitedQuantity } from "../terms/conditions.ts";
import { asShare, inWords, spanInWords } from "../terms/words.ts";

/** To whole numbers: nobody drives more exactly. */
const whole = (value: number, unit: string): string => formatValue(value, unit, 1);

export const quantityNames: Readonly<Record<VisitedQuantity["quantity"], string>> = {
  "engine-speed": "engine speed",
  "road-speed": "road speed",
  "engine-load": "load",
  "air-flow": "air flow",
  "manifold-pressure": "manifold pressure",
  throttle: "throttle",
  "coolant-temp": "coolant",
  "catalyst-temp": "catalyst",
  "fuel-status": "fuel system",
};

/** What is said of the whole: visited and for how long, or what stood against it. */
export function visitedInWords({ quantities, together, total, rear }: Visited): string {
  const recorded = quantities.filter(({ told }) => told !== "not-recorded");
  const absent = quantities.filter(({ told }) => told === "not-recorded");
  const without = absent.length > 0 ? ` Not recorded: ${listed(absent)}.` : "";
  if (recorded.length === 0) return `Nothing of the freeze frame was recorded here.${without}`;
  if (together.length === 0) {
    const never = recorded.filter(({ told }) => told === "not-visited");
    const why = never.length > 0 ? never.map(neverThere).join(" ") : "Each alone was, but never all at once.";
    return `This recording has not been where the code was stored. ${why}${without}`;
  }
  const [long, count] = [formatValue(total, "s", total < 10 ? 0.1 : 1), together.length];
  const where = count === 1 ? `(${spanInWords(together[0]!)})` : `in ${count} stretches`;
  const there = rear ? ` ${rearThere(rear)}` : "";
  return `This recording has been where the code was stored: for ${long} ${where}.${there}${without}`;
}

/** V: "at least 0" says nothing. */
const leastSwing = 0.05;

function rearThere({ span, swing, amplitudeRatio }: NonNullable<Visited["rear"]>): string {
  const where = `In the longest, ${spanInWords(span)},`;
  const isTold = swing !== null && swing.value !== null && !(swing.grade === "at-least" && swing.value < leastSwing);
  if (!isTold) return `${where} the rear cannot be measured: too short, or sampled too slowly.`;
  const isShared = amplitudeRatio && amplitudeRatio.value !== null;
  return `${where} the rear swung by ${inWords(swing)}${isShared ? `, ${asShare(amplitudeRatio)} of the front's swing` : ""}.`;
}

function neverThere({ quantity: what, wanted, nearest, unit }: VisitedQuantity): string {
  const came = nearest === null ? "" : `, ${whole(nearest, unit)} was the nearest`;
  if (what === "fuel-status") return "The fuel system was never in that state.";
  return `It was never at ${whole(wanted, unit)} ${quantityNames[what]}${came}.`;
}

const listed = (quantities: readonly VisitedQuantity[]): string =>
  quantities.map(({ quantity: what }) => quantityNames[what]).join(", ");

/** What the recording guide says: "Drive at 75 km/h, 2000 rpm, 38 % load." Null where the frame names nothing to drive at. */
export function driveThere(
  quantities: readonly Pick<VisitedQuantity, "quantity" | "wanted" | "unit">[],
): string | null {
  const driven = ["road-speed", "engine-speed", "engine-load", "air-flow", "manifold-pressure", "throttle"] as const;
  const wanted = driven.flatMap((what) => quantities.filter((one) => one.quantity === what)).slice(0, 3);
  if (wanted.length === 0) return null;
  const coolant = quantities.find((one) => one.quantity === "coolant-temp");
  const warm = coolant ? `, with the coolant at ${whole(coolant.wanted, "degC")}` : "";
  return `Drive at ${wanted.map(said).join(", ")}${warm}: there the code was stored. Hold it for 20 s or more.`;
}

function said({ quantity: what, wanted, unit }: Pick<VisitedQuantity, "quantity" | "wanted" | "unit">): string {
  const value = whole(wanted, unit);
  return what === "road-speed" || what === "engine-speed" ? value : `${value} ${quantityNames[what]}`;
}
