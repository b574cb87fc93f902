// Turns the list of things the driver does into engine speed, throttle, filling and road speed, step by step.

import type { EngineSpec, Phase } from "./car.ts";
import { lagShare } from "./lag.ts";
import type { Random } from "./random.ts";

export interface DriveTrack {
  readonly step: number;
  readonly count: number;
  /** 1/min, %, share, km/h. */
  readonly engineSpeed: Float64Array;
  readonly throttle: Float64Array;
  readonly filling: Float64Array;
  readonly roadSpeed: Float64Array;
  /** Index into the list of phases. */
  readonly phase: Uint8Array;
}

/** Seconds from the start at which each phase begins, and at last the end. */
export function phaseStarts(drive: readonly Phase[]): number[] {
  const starts = [0];
  for (const phase of drive) starts.push(starts.at(-1)! + phase.seconds);
  return starts;
}

/** @param step s between steps. */
export function layOutDrive(drive: readonly Phase[], engine: EngineSpec, random: Random, step: number): DriveTrack {
  const starts = phaseStarts(drive);
  const count = Math.round(starts.at(-1)! / step);
  const track: DriveTrack = {
    step,
    count,
    engineSpeed: new Float64Array(count),
    throttle: new Float64Array(count),
    filling: new Float64Array(count),
    roadSpeed: new Float64Array(count),
    phase: new Uint8Array(count),
  };
  let speedFrom = 0;
  drive.forEach((phase, p) => {
    const first = Math.round(starts[p]! / step);
    const end = Math.round(starts[p + 1]! / step);
    for (let i = first; i < end; i++) {
      const share = Math.min(1, ((i - first) * step) / phase.ramp);
      track.engineSpeed[i] = speedFrom + (phase.engineSpeed - speedFrom) * share;
      track.throttle[i] = phase.throttle;
      track.filling[i] = phase.filling;
      track.roadSpeed[i] = phase.gear * track.engineSpeed[i]!;
      track.phase[i] = p;
    }
    speedFrom = track.engineSpeed[end - 1] ?? speedFrom;
  });
  smooth(track, engine, random);
  return track;
}

/** The foot takes 60 ms (an electric throttle what it takes), the manifold 120 ms to fill, the car seconds to gain speed; and no engine turns evenly. */
function smooth(track: DriveTrack, engine: EngineSpec, random: Random): void {
  const foot = lagShare(engine.throttleLag ?? 0.06, track.step);
  const manifold = lagShare(0.12, track.step);
  const car = lagShare(0.8, track.step);
  const turn = lagShare(0.12, track.step);
  const shakeLag = lagShare(0.25, track.step);
  const shakeGain = engine.speedScatter * Math.sqrt((2 - shakeLag) / shakeLag);
  let [throttle, filling, roadSpeed, engineSpeed, shake] = [track.throttle[0]!, 0, 0, 0, 0];
  for (let i = 0; i < track.count; i++) {
    throttle += (track.throttle[i]! - throttle) * foot;
    filling += (track.filling[i]! - filling) * manifold;
    roadSpeed += (track.roadSpeed[i]! - roadSpeed) * car;
    engineSpeed += (track.engineSpeed[i]! - engineSpeed) * turn;
    shake += (random.normal() * shakeGain - shake) * shakeLag;
    track.throttle[i] = throttle;
    track.filling[i] = filling;
    track.roadSpeed[i] = roadSpeed;
    track.engineSpeed[i] = engineSpeed < 300 ? engineSpeed : engineSpeed + shake;
  }
}
