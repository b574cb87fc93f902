// A recording of the second plant as the program meets it: a scope's samples as they are, a log as text through the readers.

import type { Capture, Role } from "../../src/capture/model/capture.ts";
import { open } from "../capture/open.ts";
import { asSampled } from "./as-read.ts";
import { isFit } from "./fit.ts";
import type { Judged, Kind } from "./recording.ts";
import { drawSecond } from "./second-plant/cars.ts";
import { chanceFrom } from "./second-plant/chance.ts";
import { oxygenOfAir } from "./second-plant/gas.ts";
import { type Ride, ride, type Track } from "./second-plant/plant.ts";
import { asText, nameOf, type Recorded, record } from "./second-plant/recorders.ts";

const roles: Record<Track, readonly [Role, string]> = {
  front: ["front-o2", "V"],
  rear: ["rear-o2", "V"],
  speed: ["engine-speed", "1/min"],
  throttle: ["throttle", "%"],
  road: ["road-speed", "km/h"],
  air: ["air-flow", "g/s"],
  load: ["engine-load", "%"],
  manifold: ["manifold-pressure", "kPa"],
  coolant: ["coolant-temp", "degC"],
  short: ["short-trim", "%"],
  long: ["long-trim", "%"],
  loop: ["fuel-status", "1"],
};

export async function readSecond(kind: Kind, number: number): Promise<Judged> {
  const car = drawSecond(kind, number);
  const chance = chanceFrom(car.plant.seed ^ 0x6b43a9b5);
  const isLog = chance.happens(0.5);
  const offset =
    kind === "offset" ? chance.between(0.1, 0.2) : chance.happens(isLog ? 0.05 : 0.15) ? chance.between(-0.04, 0.2) : 0;
  const trims = kind === "leak-ahead" || kind === "rich" || kind === "lean" || (kind === "cold" && !isLog);
  const driven = ride(car.plant);
  const wish = { kind: isLog ? "log" : "scope", offset, swapped: kind === "swapped-leads", trims } as const;
  const recorded = record(driven, wish, chance);
  const capture = isLog ? await open(asText(recorded), {}, "second.csv") : asCaptureOf(recorded, `${kind} ${number}`);
  const { store, usable } = car;
  const made = { kind, recorder: recorded.kind, rate: recorded.rate };
  const fit = isFit(driven, { ...made, cuts: cutsWithFall(driven) });
  const known = { plant: "second", number, ...made } as const;
  const gain = car.plant.meterGain;
  return { capture, known: { ...known, fit, store, usable, largestOffer: largestOffer(driven, gain) } };
}

function asCaptureOf({ columns, rate }: Recorded, name: string): Capture {
  const sampled = columns.map(({ track, samples }) => {
    const [role, unit] = roles[track];
    return { role, unit, name: nameOf(track), samples: samples as Float64Array };
  });
  return asSampled(name, rate, sampled);
}

function cutsWithFall({ cut, hot, step, count, releasedFalls }: Ride): number {
  let found = 0;
  for (let i = 1; i < count; i++) {
    if (!cut[i] || cut[i - 1] || !hot[i]) continue;
    const end = cut.indexOf(0, i);
    const to = (end < 0 ? count : end) * step;
    if (to - i * step >= 1 && releasedFalls.some((t) => t >= i * step - 1.5 && t <= to)) found++;
  }
  return found;
}

function largestOffer({ into, tracks, hot, step, count }: Ride, meterGain: number): number {
  let [largest, offer] = [0, 0];
  for (let i = 0; i < count; i++) {
    const isLean = into[i]! > 0 && hot[i] === 1;
    offer = isLean ? offer + (oxygenOfAir * tracks.air[i]! * into[i]! * step) / meterGain : 0;
    largest = Math.max(largest, offer);
  }
  return largest;
}
