// A catalyst as a brick in cells along the gas: each holds oxygen on its ceria, and burns on its metal what meets there.

import { type Gas, oxygenOfAir } from "./gas.ts";

export interface BrickSpec {
  /** Grams of oxygen that each cell can hold when hot, from the inlet on: the inlet ages first. */
  readonly cells: readonly number[];
  /** g/s: at this flow 63 % of what passes a cell touches its metal, and its ceria. */
  readonly metal: number;
  readonly ceria: number;
  /** How uptake falls as the cell fills: exponent of the empty share. Below 1 sharp, above 1 early slip. */
  readonly order: number;
  /** 1/s at which water re-oxidises empty ceria while the gas is rich, and makes hydrogen of it. */
  readonly water: number;
  /** How much richer than stoichiometric the gas stands behind an emptied last cell, as an excess; a trace, not out of the store. */
  readonly pressure: number;
  /** Share of the gas that finds a way around: broken, or melted through. */
  readonly bypass: number;
  /** degC at which half of it works. */
  readonly lightOff: number;
}

/**
 * Discretised along its length, with ceria that takes oxygen from the gas, gives it to CO and H2, and is oxidised by H2O which makes
 * hydrogen: the form of the first-principles model in an ASME DSCC 2015 paper (V003T50A001, abstract seen), of a simple
 * ceria, CO and water-gas-shift model (Proc. IMechE D, JAUTO259, abstract seen), and of Auckenthaler, ETH Diss. 16018, 2005 (title seen);
 * rates are own choice. What a cell takes and gives never exceeds what it has room for or holds.
 */
export class Brick {
  /** Share of each cell that is oxidised. */
  readonly filled: Float64Array;

  private readonly spec: BrickSpec;

  constructor(spec: BrickSpec, filled = 0.6) {
    this.spec = spec;
    this.filled = new Float64Array(spec.cells.length).fill(filled);
  }

  /** g of oxygen held. */
  get held(): number {
    return this.spec.cells.reduce((sum, grams, k) => sum + grams * this.filled[k]!, 0);
  }

  /** Share that is hot enough: half at light-off, nearly all 50 K above. From memory. */
  working(celsius: number): number {
    return 1 / (1 + Math.exp((this.spec.lightOff - celsius) / 10));
  }

  /**
   * One parcel through all cells; `gas` is changed in place.
   *
   * @param air grams. @param seconds it took to pass any place. @param celsius of the brick.
   */
  pass(gas: Gas, air: number, seconds: number, celsius: number): void {
    if (!(air > 0)) return;
    const { spec, filled } = this;
    const hot = this.working(celsius);
    const flow = air / seconds;
    const onMetal = hot * (1 - Math.exp(-spec.metal / flow));
    const onCeria = hot * (1 - Math.exp(-spec.ceria / flow));
    const [oxygen, reductant, hydrogen, unburnt] = [gas.oxygen, gas.reductant, gas.hydrogen, gas.unburnt];
    for (let k = 0; k < filled.length; k++) {
      burn(gas, onMetal);
      const grams = spec.cells[k]!;
      const room = (1 - filled[k]!) * grams;
      const takes = Math.min(gas.oxygen * onCeria * (1 - filled[k]!) ** spec.order, room / air);
      gas.oxygen -= takes;
      const gives = Math.min(gas.reductant * onCeria * filled[k]! ** spec.order, (filled[k]! * grams) / air);
      this.give(gas, gives);
      filled[k] = Math.min(1, Math.max(0, filled[k]! + ((takes - gives) * air) / grams));
      if (gas.reductant > gas.oxygen) this.split(gas, k, { air, seconds, hot });
    }
    this.standOver(gas, hot);
    const by = spec.bypass;
    gas.oxygen += (oxygen - gas.oxygen) * by;
    gas.reductant += (reductant - gas.reductant) * by;
    gas.hydrogen += (hydrogen - gas.hydrogen) * by;
    gas.unburnt += (unburnt - gas.unburnt) * by;
  }

  private give(gas: Gas, gives: number): void {
    if (gives <= 0) return;
    gas.hydrogen *= 1 - gives / gas.reductant;
    gas.reductant -= gives;
  }

  /** Water gives its oxygen to empty ceria: hydrogen is left over. */
  private split(gas: Gas, k: number, { air, seconds, hot }: { air: number; seconds: number; hot: number }): void {
    const grams = this.spec.cells[k]!;
    const taken = Math.min(this.spec.water * hot * (1 - this.filled[k]!) * grams * seconds, 0.2 * gas.reductant * air);
    this.filled[k] = this.filled[k]! + taken / grams;
    gas.reductant += taken / air;
    gas.hydrogen += taken / air;
  }

  /** Gas leaves in balance with the last cell's ceria: a trace of hydrogen over empty, a trace of oxygen over full. */
  private standOver(gas: Gas, hot: number): void {
    const filled = this.filled.at(-1)!;
    const most = oxygenOfAir * this.spec.pressure * hot;
    if (filled > nearlyFull) gas.oxygen += 0.5 * most * ((filled - nearlyFull) / (1 - nearlyFull));
    else {
      const trace = most * (0.3 + 0.7 * (1 - filled / nearlyFull));
      gas.reductant += trace;
      gas.hydrogen += trace;
    }
  }
}

const nearlyFull = 0.9;

/** Fuel first, then CO and hydrogen, with the oxygen that is there. */
function burn(gas: Gas, touched: number): void {
  const fuel = touched * Math.min(gas.oxygen, gas.unburnt);
  gas.unburnt -= fuel;
  gas.oxygen -= fuel;
  const rest = touched * Math.min(gas.oxygen, gas.reductant);
  if (rest <= 0) return;
  gas.hydrogen *= 1 - rest / gas.reductant;
  gas.oxygen -= rest;
  gas.reductant -= rest;
}

/** g that the emptied hot brick takes in a cut of 8 g/s until 1 % of the air's oxygen passes. */
export function usableOf(spec: BrickSpec): number {
  const brick = new Brick(spec, 0);
  const [seconds, air] = [0.001, 0.008];
  const gas: Gas = { oxygen: 0, reductant: 0, hydrogen: 0, unburnt: 0 };
  for (let taken = 0; ; taken = brick.held) {
    Object.assign(gas, { oxygen: oxygenOfAir, reductant: 0, hydrogen: 0, unburnt: 0 });
    brick.pass(gas, air, seconds, 600);
    if (gas.oxygen > 0.01 * oxygenOfAir) return taken;
  }
}
