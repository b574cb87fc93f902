// Which channel of a capture plays which part for one bank.

import type { AnyChannel, Bank, Capture, Channel, Role } from "../../capture/model/capture.ts";
import { batchesOf } from "../../signal/series/reel.ts";
import type { AnySamples } from "../../signal/series/series.ts";

/** The channels of one bank; null where none was recorded. What belongs to the whole engine is shared by both banks. */
export interface BankChannels<C = Channel> {
  readonly bank: Bank;
  readonly front: C | null;
  readonly rear: C | null;
  readonly frontLambda: C | null;
  /** Pump current of a wide-band front, mA: its sign tells rich from lean, its size no lambda. */
  readonly frontPump: C | null;
  readonly shortTrim: C | null;
  readonly longTrim: C | null;
  readonly catalystTemperature: C | null;
  readonly engineSpeed: C | null;
  readonly throttle: C | null;
  readonly roadSpeed: C | null;
  readonly airFlow: C | null;
  readonly coolant: C | null;
  readonly fuelStatus: C | null;
  readonly load: C | null;
  readonly manifoldPressure: C | null;
  /** Injector pulses or pulse width, told by its name: no role is kept for it. */
  readonly injector: C | null;
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
export function channelsOf<C extends AnyChannel>(
  capture: { readonly channels: readonly C[] },
  bank: Bank,
): BankChannels<C> {
  const filled = capture.channels.filter(({ series }) => holdsAny(series.samples));
  const ofBank = (role: Role) => filled.find((c) => c.role === role && c.bank === bank) ?? null;
  const ofEngine = (role: Role) => ofBank(role) ?? filled.find((c) => c.role === role) ?? null;
  return {
    bank,
    front: ofBank("front-o2"),
    rear: ofBank("rear-o2"),
    frontLambda: filled.find((c) => c.role === "front-lambda" && c.bank === bank && c.unit !== "mA") ?? null,
    frontPump: filled.find((c) => c.role === "front-lambda" && c.bank === bank && c.unit === "mA") ?? null,
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

function holdsAny(samples: AnySamples): boolean {
  for (const batch of batchesOf(samples)) if (batch.some(Number.isFinite)) return true;
  return false;
}
