// The catalyst: three nodes along the gas, each with a surface that takes and gives oxygen fast and a bulk behind it that follows by
// diffusion. After the form of surface and bulk ceria in the literature on oxygen storage (Moeller et al. 2009; from memory); numbers
// are own choices within what such papers show.

import { type Gas, oxygenOfAir } from "./gas.ts";

export const nodes = 3;

export interface CatalystSpec {
  /** g of oxygen on the surfaces of all nodes, and behind them. */
  readonly surface: number;
  readonly bulk: number;
  /** 1/s when hot, of what is free and of what is filled. Giving is slower than taking. */
  readonly uptake: number;
  readonly release: number;
  /** 1/s of the difference between bulk and surface. */
  readonly exchange: number;
  /** g/s of gas that one node burns all but 1/e of. */
  readonly metal: number;
  /** degC at which half of the metal works. */
  readonly lightOff: number;
  /** Hydrogen made of steam on emptied surfaces, as a share of what is over in a rich gas, and s for which it lingers: adds to the gas, but little. */
  readonly waterGas: number;
  readonly linger: number;
  /** Shares of either kind in balance with a half filled surface. */
  readonly balance: number;
}

/** How far the balance of the surfaces moves with their filling (own choice). */
const steepness = 0.45;

export class Catalyst {
  readonly surface: Float64Array;
  readonly bulk: Float64Array;
  private lingering = 0;
  private degrees = 0;
  private pace = 0;
  /** Share of the metal at work, 0 to 1. */
  active = 0;

  private readonly spec: CatalystSpec;
  constructor(spec: CatalystSpec, filled: number, celsius: number) {
    this.spec = spec;
    this.surface = new Float64Array(nodes).fill(filled);
    this.bulk = new Float64Array(nodes).fill(filled);
    this.celsius = celsius;
  }

  /** g of oxygen that it holds now. */
  get held(): number {
    const { surface, bulk } = this.spec;
    const part = (share: Float64Array, grams: number) => (share.reduce((sum, one) => sum + one, 0) * grams) / nodes;
    return part(this.surface, surface) + part(this.bulk, bulk);
  }

  get celsius(): number {
    return this.degrees;
  }

  set celsius(degrees: number) {
    this.degrees = degrees;
    this.active = 1 / (1 + Math.exp((this.spec.lightOff - degrees) / 22));
    // Arrhenius-like in a narrow range: doubles in 150 K about 450 degC.
    this.pace = this.active * Math.min(2, 2 ** ((degrees - 450) / 150));
  }

  /**
   * One step of `step` s; the gas is changed in place.
   *
   * @param flow g/s of exhaust, above 0.
   */
  pass(gas: Gas, flow: number, step: number): void {
    const { spec, active, pace } = this;
    const contact = active * (1 - Math.exp(-spec.metal / flow));
    const offer = flow * oxygenOfAir;
    const over = gas.reductant + gas.unburnt - gas.oxygen;
    for (let k = 0; k < nodes; k++) {
      burn(gas, contact);
      this.store(gas, k, { offer, pace, step });
    }
    this.breathe(gas, over, step);
  }

  /** Uptake and release, each no faster than the surface allows, and the exchange with the bulk. */
  private store(gas: Gas, k: number, at: { offer: number; pace: number; step: number }): void {
    const { spec, surface, bulk } = this;
    const [grams, behind] = [spec.surface / nodes, spec.bulk / nodes];
    const filled = surface[k]!;
    const fuel = gas.reductant + gas.unburnt;
    const taken = saturated(at.offer * gas.oxygen, at.pace * spec.uptake * grams * (1 - filled));
    const given = saturated(at.offer * fuel, at.pace * spec.release * grams * filled);
    gas.oxygen -= taken / at.offer;
    if (fuel > 0) {
      gas.reductant *= 1 - given / (at.offer * fuel);
      gas.unburnt *= 1 - given / (at.offer * fuel);
    }
    const crossing = at.pace * spec.exchange * behind * (filled - bulk[k]!);
    surface[k] = clamp01(filled + ((taken - given - crossing) * at.step) / grams);
    if (behind > 0) bulk[k] = clamp01(bulk[k]! + (crossing * at.step) / behind);
  }

  /** Hydrogen that lingers after rich spells, and what stands in balance with the surfaces: a few parts in 10,000 beside the gas. */
  private breathe(gas: Gas, over: number, step: number): void {
    const { active } = this;
    const { waterGas, linger, balance } = this.spec;
    const [a, b, c] = this.surface as unknown as [number, number, number];
    const mean = Math.min(0.99, Math.max(0.01, (a + b + c) / nodes));
    const lean = (mean / (1 - mean)) ** steepness;
    const made = Math.min(0.003, 1.8 * (1 - mean) * waterGas * Math.max(0, over));
    this.lingering += ((made > this.lingering ? 2.5 : 1) * step * (made - this.lingering)) / linger;
    gas.hydrogen += active * this.lingering;
    gas.oxygen += active * balance * lean;
    gas.reductant += (2 * active * balance) / lean;
  }
}

/** What of `offer` is taken where at most `most` can be: all of a small offer, `most` of a large one. */
const saturated = (offer: number, most: number): number => (offer > 0 ? offer * (1 - Math.exp(-most / offer)) : 0);

const clamp01 = (share: number): number => Math.min(1, Math.max(0, share));

function burn(gas: Gas, contact: number): void {
  const fuel = gas.reductant + gas.unburnt + gas.hydrogen;
  const burnt = contact * Math.min(gas.oxygen, fuel);
  gas.oxygen -= burnt;
  if (fuel > 0) scaleFuel(gas, 1 - burnt / fuel);
}

function scaleFuel(gas: Gas, by: number): void {
  gas.reductant *= by;
  gas.unburnt *= by;
  gas.hydrogen *= by;
}

/** g that an emptied hot one takes in a cut of 8 g/s until 1 % of the oxygen passes. */
export function usableOf(spec: CatalystSpec): number {
  const catalyst = new Catalyst(spec, 0, 550);
  const gas: Gas = { oxygen: 1, reductant: 0, unburnt: 0, hydrogen: 0 };
  const step = 0.002;
  for (let k = 0; k < 30_000; k++) {
    gas.oxygen = 1;
    gas.reductant = 0;
    gas.unburnt = 0;
    gas.hydrogen = 0;
    catalyst.pass(gas, 8, step);
    if (gas.oxygen - spec.balance > 0.01) break;
  }
  return catalyst.held;
}
