// Sensors: zirconia cells behind a diffusive cover, wide-band cells, and the air meter.

import type { Gas } from "./gas.ts";

export interface CellSpec {
  /** s towards the log-ratio, after lean to rich and after rich to lean. */
  readonly toRich: number;
  readonly toLean: number;
  /** s of stay under the cover; clogged ones keep gas for longer. */
  readonly cover: number;
  /** Share of what could still burn that its electrode burns. */
  readonly electrode: number;
  /** V at 1 % of reductant. */
  readonly rich: number;
  /** V that the lead or the shunt adds everywhere. */
  readonly floor: number;
  /** How steep about the middle: 0.8 (aged) to 1.4 (new). */
  readonly steep: number;
}

/** Shares that always reach an electrode: own choice, sets how far the log-ratio goes. */
const least = 1e-4;
/** RT/4F at 600 degC, V. */
export const nernst = (8.31446 * 873.15) / (4 * 96485.33);

/** ln of reductant over oxygen at the electrode; hydrogen comes through the cover fastest (from memory: 3 to 4 times carbon monoxide). */
export function logRatio(gas: Gas, electrode: number): number {
  const fuel = gas.reductant + 0.35 * gas.unburnt + 3 * gas.hydrogen;
  const burnt = electrode * Math.min(gas.oxygen, fuel);
  return Math.log((fuel - burnt + least) / (gas.oxygen - burnt + least));
}

/** Nernst's law on either side: RT/4F per factor e of oxygen when lean, twice that per factor e of reductant when rich. */
export function cellVolts({ rich, floor, steep }: CellSpec, ratio: number): number {
  const share = 1 / (1 + Math.exp(-steep * ratio));
  const whenRich = rich + 2 * nernst * (ratio - Math.log(0.01 / least));
  const whenLean = Math.max(0, nernst * (ratio - Math.log(least)));
  return floor + share * whenRich + (1 - share) * whenLean;
}

export class Cell {
  private ratio: number;
  private reached: number;
  private wire = 0.45;
  private readonly spec: CellSpec;
  constructor(spec: CellSpec, ratio: number) {
    this.spec = spec;
    this.ratio = ratio;
    this.reached = ratio;
  }

  /** @param awake 0 cold (the module's bias shows) to 1. */
  read(gas: Gas, awake: number, step: number): number {
    const { toRich, toLean, cover, electrode } = this.spec;
    this.reached += (logRatio(gas, electrode) - this.reached) * lagged(step, cover);
    const to = this.reached;
    this.ratio += (to - this.ratio) * lagged(step, to > this.ratio ? toRich : toLean);
    const volts = 0.45 + awake * (cellVolts(this.spec, this.ratio) - 0.45);
    this.wire += (volts - this.wire) * lagged(step, 0.006);
    return this.wire;
  }
}

/** Wide-band: the excess itself through one lag; what is written of it ends at `widest`. */
export class WideCell {
  private excess = 0;
  private readonly lag: number;
  private readonly widest: number;
  private readonly error: number;
  constructor(lag: number, widest: number, error: number) {
    this.lag = lag;
    this.widest = widest;
    this.error = error;
  }

  /** @returns lambda */
  read(gas: Gas, step: number): number {
    const to = gas.oxygen - gas.reductant - 0.5 * gas.unburnt - gas.hydrogen;
    this.excess += (to - this.excess) * lagged(step, this.lag);
    const lambda = 1 / Math.max(1e-3, 1 - this.excess);
    return Math.min(this.widest, Math.max(0.65, lambda * (1 + this.error)));
  }
}

/** Share of the way that a first-order lag goes in a step (implicit, so that it is sound for any step). */
const lagged = (step: number, seconds: number): number => step / (step + seconds);

export class Lag {
  private readonly seconds: number;
  value: number;
  constructor(seconds: number, value: number) {
    this.seconds = seconds;
    this.value = value;
  }

  follow(to: number, step: number): number {
    this.value += (to - this.value) * lagged(step, this.seconds);
    return this.value;
  }
}
