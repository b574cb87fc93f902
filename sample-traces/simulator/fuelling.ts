// The engine module: closes the loop on the front sensor, enriches under load, cuts fuel on the overrun.

import type { FuellingSpec, Phase } from "./car.ts";
import { lagShare } from "./lag.ts";

/** Fuel system status as the diagnostic standard (SAE J1979, PID 03) codes it; 1 from memory. */
export const fuelStatus = { coldOpen: 1, closed: 2, drivenOpen: 4 } as const;

export interface Seen {
  readonly phase: Phase;
  engineSpeed: number;
  frontVoltage: number;
  rearVoltage: number;
  frontAwake: boolean;
  rearAwake: boolean;
  /** s since the engine runs. */
  running: number;
}

export interface Fuelling {
  /** Fuel over what the air needs (1/lambda); 0 in a cut. */
  next(seen: Seen): number;
  status: number;
  /** Share of the fuel. */
  shortTrim: number;
  longTrim: number;
}

const startEnrichment = 1.06;
/** After a cut the store is full: fuel is added until the rear is rich again, at most this long. s. */
const refillTime = 2;
const refillEnrichment = 1.05;

/**
 * Long because it is one state machine: every part of it moves the same state.
 *
 * @param step s.
 */
export function createFuelling(spec: FuellingSpec, step: number): Fuelling {
  let wasRich = false;
  let released = 0;
  let sinceCut = refillTime;
  let rearBias = 0;
  const smoothing = lagShare(2, step);

  const fuelling: Fuelling = {
    status: fuelStatus.coldOpen,
    shortTrim: 0,
    longTrim: spec.longTrim,
    next(seen) {
      released = seen.phase.released ? released + step : 0;
      if (seen.phase.stopped) return cut();
      if (released > spec.cutDelay && seen.engineSpeed > spec.cutEnds) return cut();
      sinceCut += step;
      return deliver(asked(seen));
    },
  };

  function cut(): number {
    sinceCut = 0;
    return openLoop(fuelStatus.drivenOpen, 0);
  }

  function openLoop(status: number, fuel: number): number {
    fuelling.status = status;
    fuelling.shortTrim = 0;
    return fuel;
  }

  /** 1/lambda that the module means to have, without its trims. */
  function asked(seen: Seen): number {
    if (seen.running < 12 || !seen.frontAwake) return openLoop(fuelStatus.coldOpen, startEnrichment);
    if (seen.phase.enrich && released <= spec.cutDelay) return openLoop(fuelStatus.drivenOpen, 1 / seen.phase.enrich);
    if (sinceCut < refillTime && (seen.rearVoltage < 0.6 || sinceCut < 0.3)) {
      return openLoop(fuelStatus.drivenOpen, refillEnrichment);
    }
    closeLoop(seen);
    return 1;
  }

  /** A step at each crossing of 0.45 V and a ramp between them; the rear loop makes both a little lopsided. */
  function closeLoop(seen: Seen): void {
    const isRich = seen.frontVoltage > 0.45;
    trimByRear(seen);
    const way = isRich ? -1 : 1;
    const lopsided = 1 + way * Math.min(0.5, Math.max(-0.5, rearBias));
    if (isRich !== wasRich && fuelling.status === fuelStatus.closed) fuelling.shortTrim += way * spec.step * lopsided;
    fuelling.shortTrim += way * spec.rampRate * lopsided * step;
    fuelling.shortTrim = Math.min(spec.authority, Math.max(-spec.authority, fuelling.shortTrim));
    // Learned over a minute; never beyond what the short trim may do.
    fuelling.longTrim += (fuelling.shortTrim * step) / 60;
    fuelling.longTrim = Math.min(spec.authority, Math.max(-spec.authority, fuelling.longTrim));
    fuelling.status = fuelStatus.closed;
    wasRich = isRich;
  }

  /** Proportional, through 2 s of smoothing: enough to hold the store away from both ends, too slow to follow a swing. */
  function trimByRear(seen: Seen): void {
    if (spec.rearTarget === null || !seen.rearAwake) return;
    rearBias += (1.2 * (spec.rearTarget - seen.rearVoltage) - rearBias) * smoothing;
  }

  function deliver(fuel: number): number {
    return fuel * (1 + fuelling.shortTrim) * (1 + fuelling.longTrim) * (1 + spec.error);
  }

  return fuelling;
}
