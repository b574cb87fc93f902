// Both delays of a comparison as dimensions: that of the suspect's lift-off in the view, and that of the reference's under it.

import type { ComparedLiftOff } from "../../exhaust/comparing/comparison.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import type { LaneLook } from "../../plot/stage/types.ts";
import type { SheetDimension } from "../../report/exhibit/sheet.ts";
import type { Comparing } from "../comparing/comparing.ts";
import { referenceId } from "../comparing/counterparts.ts";
import type { Ground } from "../core/ground.ts";
import { delayLabel } from "./everyday.ts";

/** Where the lines stand, V: each below the rich level, well apart. */
const places = { suspect: 0.66, reference: 0.3 } as const;

interface Shown extends Ground {
  readonly comparing: Comparing;
}

/** @returns null where nothing is compared, or neither has a lift-off in the view. */
export function comparedDelays(
  { comparing, summary, bench, desk }: Shown,
  span: Span,
  lanes: readonly LaneLook[],
): readonly SheetDimension[] | null {
  const [events, shift] = [comparing.comparison()?.events, comparing.shift()?.shift.value];
  const front = summary()?.channels.find((c) => c.role === "front-o2" && c.bank === bench.state().bank);
  const lane = bench.state().lanes.find((l) => front && l.channelIds.includes(front.id));
  if (!events || shift === undefined || shift === null || !lane) return null;
  const level = desk.limits().switchLevel;
  const below = lanes.find(({ id }) => id === referenceId(lane.id));
  const suspect = nearest(events.suspect, span, 0);
  const reference = nearest(events.reference, span, shift);
  const both = [
    suspect && dimensionOf(suspect, { by: 0, whose: "suspect", laneId: lane.id, level }),
    reference && dimensionOf(reference, { by: shift, whose: "reference", laneId: below?.id ?? lane.id, level }),
  ].filter((one) => one !== null);
  return both.length > 0 ? both : null;
}

/** The one that falls nearest the middle of the view, told `by` s later; null where none falls in it. */
function nearest(events: readonly ComparedLiftOff[], { from, to }: Span, by: number): ComparedLiftOff | null {
  const away = ({ frontFall }: ComparedLiftOff) => Math.abs((frontFall.value ?? Infinity) + by - (from + to) / 2);
  const [first] = [...events].sort((a, b) => away(a) - away(b));
  return first && away(first) <= (to - from) / 2 ? first : null;
}

interface Placing {
  readonly by: number;
  readonly whose: keyof typeof places;
  readonly laneId: string;
  readonly level: number;
}

function dimensionOf({ id, frontFall, delay }: ComparedLiftOff, placing: Placing): SheetDimension | null {
  if (frontFall.value === null || delay.value === null) return null;
  const { by, whose, laneId, level } = placing;
  const time = frontFall.value + by;
  return {
    id: `${whose}-${id}`,
    kind: "time",
    laneId,
    from: { time, level },
    to: { time: time + delay.value, level },
    place: places[whose],
    label: delayLabel(whose),
    whose,
    reading: delay,
  };
}
