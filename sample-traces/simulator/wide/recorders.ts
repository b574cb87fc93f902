// What a wide fleet is recorded with: scopes that sample evenly, logs that ask in turn and write in more than one way.

import type { Random } from "../random.ts";
import type { PollSpec, ScopeSpec } from "../recorder.ts";
import type { Quantity } from "../run.ts";

const sensors: readonly Quantity[] = ["frontVoltage", "rearVoltage"];

/** Each with what stands in for the air flow, or without anything of it. */
const scopeChannels: readonly (readonly Quantity[])[] = [
  [],
  ["engineSpeed", "throttle"],
  ["engineSpeed", "throttle", "airFlow"],
  ["engineSpeed", "throttle", "airFlow", "coolant"],
  ["engineSpeed", "manifoldPressure"],
  ["engineSpeed", "throttle", "airFlow", "coolant", "shortTrim", "longTrim", "fuelStatus"],
];

const logChannels: readonly (readonly Quantity[])[] = [
  ["engineSpeed", "airFlow"],
  ["engineSpeed", "throttle", "engineLoad"],
  ["engineSpeed", "throttle", "airFlow", "coolant", "shortTrim", "longTrim", "fuelStatus"],
  ["engineSpeed", "throttle", "airFlow", "roadSpeed", "coolant", "shortTrim", "longTrim", "fuelStatus"],
  ["engineSpeed", "throttle", "manifoldPressure", "coolant", "shortTrim", "longTrim"],
];

/** @param withTrims the fault shows in the trims alone. */
export function drawWideScope(random: Random, seconds: number, withTrims: boolean): ScopeSpec {
  const channels = withTrims ? scopeChannels.at(-1)! : random.pick(scopeChannels);
  return {
    kind: "scope",
    rate: Math.round(random.logUniform(60, 500)),
    from: 0,
    to: seconds,
    noise: random.logUniform(0.001, 0.02),
    resolution: random.pick([0.001, 0.002, 0.005, 0.01]),
    channels: [...sensors, ...channels],
    ...(random.chance(0.15) ? { offset: random.uniform(-0.04, 0.2) } : {}),
  };
}

/** 1 to 14 answers a second from every channel; written by rounds, with each answer, or by a clock of its own. */
export function drawWideLog(random: Random, seconds: number, withTrims: boolean): PollSpec {
  const channels = [...sensors, ...(withTrims ? logChannels[3]! : random.pick(logChannels))];
  // Half of them quick enough to be judged by.
  const rounds = random.chance(0.5) ? random.uniform(8, 14) : random.logUniform(1, 14);
  const writes = random.pick(["rounds", "rounds", "each-answer", "clock"] as const);
  return {
    kind: "polled",
    requestsPerSecond: channels.length * rounds,
    jitter: random.uniform(0.02, 0.25),
    from: 0,
    to: seconds,
    channels,
    missed: random.chance(0.5) ? 0 : random.uniform(0, 0.08),
    ...(writes === "each-answer" ? { writes } : {}),
    ...(writes === "clock" ? { writes: random.pick([5, 10, 20]) } : {}),
    ...(random.chance(0.05) ? { offset: random.uniform(-0.04, 0.2) } : {}),
  };
}

/** Times a second that each channel is asked. */
export const roundsPerSecond = ({ requestsPerSecond, channels }: PollSpec): number =>
  requestsPerSecond / channels.length;
