// The destinations of the recording on the bench, in the order in which they help.

import type { Span } from "../../exhaust/terms/analysis.ts";
import { formatTime } from "../../signal/written/reading-text.ts";
import type { Ground } from "../core/ground.ts";
import type { LiftOffs } from "../lift-offs/lift-offs.ts";
import { whenInWords } from "../places/PlaceList.tsx";
import { about, type Places } from "../places/places.ts";
import type { Stretches } from "../stretches/stretches.ts";
import { stretchWords } from "../words.ts";
import { type Destination, timeFrom } from "./destinations.ts";

export interface Known {
  readonly ground: Pick<Ground, "view" | "readings" | "companions">;
  readonly liftOffs: LiftOffs;
  readonly stretches: Stretches;
  readonly places: Places;
  /** Reads all values at an instant. */
  point(time: number): void;
}

const step = 0.1;

export function destinationsOf(known: Known): readonly Destination[] {
  const { liftOffs, stretches, places } = known;
  return [
    ...liftOffs.list().map((one, i) => ({
      label: `Lift-off ${i + 1}, at ${formatTime(one.at, step)}`,
      go: () => liftOffs.select(one.id),
    })),
    ...places.list().map((one) => ({ label: `${one.name}, ${whenInWords(one)}`, go: () => places.go(one) })),
    ...wakings(known),
    ...stretches.list().map((one) => ({
      label: `${capital(stretchWords[one.kind])}, ${formatTime(one.from, step)} to ${formatTime(one.to, step)}`,
      go: () => stretches.go(one),
    })),
    ...ends(known),
  ];
}

/** A typed time within the recording. */
export function timeDestination(typed: string, known: Known): Destination | null {
  const time = timeFrom(typed);
  const whole = known.ground.companions.whole();
  if (time === null || !whole || time < whole.from || time > whole.to) return null;
  return { label: `To ${formatTime(time, 0.01)}`, go: () => showInstant(time, known) };
}

/** Why nothing is found: a time that was not recorded, or words that nothing is called by. */
export function whyNowhere(typed: string, whole: Span | null): string {
  if (timeFrom(typed) === null || !whole)
    return "Nothing by that name. Try “cruise”, “lift-off 2”, “rear wakes” or a time such as “120 s”.";
  return `The recording goes from ${formatTime(whole.from, step)} to ${formatTime(whole.to, step)}.`;
}

function showInstant(time: number, { ground: { view }, point }: Known): void {
  view.show(about(time, view.view()));
  point(time);
}

function wakings(known: Known): readonly Destination[] {
  const awake = known.ground.readings.whole()?.awake;
  return (["front", "rear"] as const).flatMap((side) => {
    const time = awake?.[side]?.awakeFrom ?? null;
    if (time === null) return [];
    return [{ label: `${capital(side)} wakes, at ${formatTime(time, step)}`, go: () => showInstant(time, known) }];
  });
}

function ends({ ground: { view, companions } }: Known): readonly Destination[] {
  const whole = companions.whole();
  if (!whole) return [];
  return [
    { label: "Start of the recording", go: () => view.show(about(whole.from, view.view())) },
    { label: "End of the recording", go: () => view.show(about(whole.to, view.view())) },
  ];
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
