// Which channel of a capture plays which part for one bank.

import type { Bank, Capture, Channel, Role } from "../capture/capture.ts";

/** The channels of one bank; null where none was recorded. What belongs to the whole engine is shared by both banks. */
export interface BankChannels {
  readonly bank: Bank;
  readonly front: Channel | null;
  readonly rear: Channel | null;
  readonly frontLambda: Channel | null;
  readonly shortTrim: Channel | null;
  readonly longTrim: Channel | null;
  readonly catalystTemperature: Channel | null;
  readonly engineSpeed: Channel | null;
  readonly throttle: Channel | null;
  readonly roadSpeed: Channel | null;
  readonly airFlow: Channel | null;
  readonly coolant: Channel | null;
  readonly fuelStatus: Channel | null;
  readonly load: Channel | null;
  readonly manifoldPressure: Channel | null;
  /** Injector pulses or pulse width, told by its name: no role is kept for it. */
  readonly injector: Channel | null;
}

const isInjector = ({ role, name }: Pick<Channel, "role" | "name">): boolean => role === "other" && /\binj/i.test(name);

/** Whether anything here looks at a channel: those without a role are left out, all but injector pulses. */
export const isJudged = (channel: Pick<Channel, "role" | "name">): boolean =>
  channel.role !== "other" || isInjector(channel);

const sensorRoles: readonly Role[] = ["front-o2", "rear-o2", "front-lambda"];

/** Whether a span is measured on a channel. */
export const isSensor = ({ role }: Pick<Channel, "role">): boolean => sensorRoles.includes(role);

/** The bank asked for, else the first that has an oxygen sensor, else 1. */
export function bankOf(capture: Capture, wanted?: Bank): Bank {
  if (wanted) return wanted;
  const has = (bank: Bank) => capture.channels.some((c) => c.bank === bank && isSensor(c));
  return !has(1) && has(2) ? 2 : 1;
}

/** Banks with an oxygen sensor, in order. */
export function banksIn(capture: Capture): Bank[] {
  return ([1, 2] as const).filter((bank) => capture.channels.some((c) => c.bank === bank && isSensor(c)));
}

/** The first channel of each role, in file order, that holds any value. */
export function channelsOf(capture: Capture, bank: Bank): BankChannels {
  const filled = capture.channels.filter((channel) => channel.series.samples.some(Number.isFinite));
  const ofBank = (role: Role) => filled.find((c) => c.role === role && c.bank === bank) ?? null;
  const ofEngine = (role: Role) => ofBank(role) ?? filled.find((c) => c.role === role) ?? null;
  return {
    bank,
    front: ofBank("front-o2"),
    rear: ofBank("rear-o2"),
    frontLambda: ofBank("front-lambda"),
    shortTrim: ofBank("short-trim"),
    longTrim: ofBank("long-trim"),
    catalystTemperature: ofBank("catalyst-temp"),
    engineSpeed: ofEngine("engine-speed"),
    throttle: ofEngine("throttle"),
    roadSpeed: ofEngine("road-speed"),
    airFlow: ofEngine("air-flow"),
    coolant: ofEngine("coolant-temp"),
    fuelStatus: ofEngine("fuel-status"),
    load: ofEngine("engine-load"),
    manifoldPressure: ofEngine("manifold-pressure"),
    injector: filled.find(isInjector) ?? null,
  };
}
