// A recording of the third plant as the program meets it: a fast scope's samples as they are, all others as text through the readers.

import type { Capture, Role } from "../../src/capture/model/capture.ts";
import { open } from "../capture/open.ts";
import { asSampled } from "./as-read.ts";
import { isFit } from "./fit.ts";
import type { Judged, Kind } from "./recording.ts";
import { drawThird } from "./third-plant/cars.ts";
import { chanceOf } from "./third-plant/chance.ts";
import { oxygenOfAir } from "./third-plant/gas.ts";
import { asText, drawLayout } from "./third-plant/layouts.ts";
import { type Ride, ride, type Track } from "./third-plant/plant.ts";
import { type Recorded, record } from "./third-plant/recorders.ts";

const roles: Record<Track, readonly [Role, string, string]> = {
  front: ["front-o2", "V", "Front sensor"],
  rear: ["rear-o2", "V", "Rear sensor"],
  lambda: ["front-lambda", "1", "Front lambda"],
  speed: ["engine-speed", "1/min", "Engine speed"],
  throttle: ["throttle", "%", "Throttle"],
  road: ["road-speed", "km/h", "Road speed"],
  air: ["air-flow", "g/s", "Air flow"],
  load: ["engine-load", "%", "Load"],
  manifold: ["manifold-pressure", "kPa", "Manifold pressure"],
  coolant: ["coolant-temp", "degC", "Coolant"],
  short: ["short-trim", "%", "Short trim"],
  long: ["long-trim", "%", "Long trim"],
  loop: ["fuel-status", "1", "Loop"],
};

/** Rows above which a scope's samples are handed over without being written first. */
const mostWritten = 25_000;

export async function readThird(kind: Kind, number: number): Promise<Judged> {
  const chance = chanceOf(`third ${kind} ${number} recorder`);
  const isLog = chance.happens(0.5);
  const car = drawThird(kind, number, isLog);
  const driven = ride(car.plant);
  const trims = kind === "leak-ahead" || kind === "rich" || kind === "lean" || (kind === "cold" && !isLog);
  const recorder = isLog ? "log" : "scope";
  const wish = {
    kind: recorder,
    wide: car.wide,
    offset: offsetOf(kind, isLog),
    swapped: kind === "swapped-leads",
    trims,
  };
  const recorded = record(driven, { ...wish, kind: recorder }, chance);
  const isWritten = isLog || recorded.stamps.length < mostWritten;
  const capture = isWritten
    ? await open(asText(recorded, drawLayout(chance)), {}, "third.csv")
    : asCaptureOf(recorded, `${kind} ${number}`);
  const { store, usable } = car;
  const made = { kind, recorder, rate: recorded.rate } as const;
  const fit = isFit(driven, { ...made, cuts: cutsWithFall(driven) });
  const known = { plant: "third", number, fit, ...made } as const;
  return { capture, known: { ...known, store, usable, largestOffer: largestOffer(driven) } };

  function offsetOf(of: Kind, log: boolean) {
    const rearOnly = chance.happens(0.5);
    if (of === "offset") return { volts: chance.between(0.1, 0.2), rearOnly };
    return { volts: chance.happens(log ? 0.05 : 0.15) ? chance.between(-0.03, 0.08) : 0, rearOnly };
  }
}

function asCaptureOf({ columns, rate }: Recorded, name: string): Capture {
  const sampled = columns.map(({ track, samples }) => {
    const [role, unit, called] = roles[track];
    return { role, unit, name: called, samples: samples as Float64Array };
  });
  return asSampled(name, rate, sampled);
}

/** Cuts of a second or more, hot, in which the front came down from rich. */
function cutsWithFall({ cut, hot, step, count, tracks }: Ride): number {
  let found = 0;
  const back = Math.round(1.5 / step);
  for (let i = 1; i < count; i++) {
    if (!cut[i] || cut[i - 1] || !hot[i]) continue;
    const end = cut.indexOf(0, i);
    const to = end < 0 ? count : end;
    const before = tracks.front.subarray(Math.max(0, i - back), to);
    const wasRich = before.some((volts) => volts > 0.6);
    if ((to - i) * step >= 1 && wasRich && tracks.front[to - 1]! < 0.3) found++;
  }
  return found;
}

/** g: the most oxygen that one lean spell brought to a hot catalyst. */
function largestOffer({ into, flow, hot, step, count }: Ride): number {
  let [largest, offer] = [0, 0];
  for (let i = 0; i < count; i++) {
    const isLean = into[i]! > 0 && hot[i] === 1;
    offer = isLean ? offer + oxygenOfAir * flow[i]! * into[i]! * step : 0;
    largest = Math.max(largest, offer);
  }
  return largest;
}
