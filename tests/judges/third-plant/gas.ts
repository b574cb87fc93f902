// What flows through the pipe, and the stirred volumes it flows through.

/** Shares of mass of oxygen in air, by mole shares 0.2095 and mole masses 31.998 and 28.96. */
export const oxygenOfAir = (0.2095 * 31.998) / 28.96;

/** All as shares of the oxygen that came in with the air: fuel is counted by the oxygen that it would burn. */
export interface Gas {
  oxygen: number;
  /** Half-burnt: carbon monoxide, and the hydrogen beside it. */
  reductant: number;
  /** Fuel that was never lit. */
  unburnt: number;
  /** Made in the catalyst from steam while rich. */
  hydrogen: number;
}

export const noGas = (): Gas => ({ oxygen: 0, reductant: 0, unburnt: 0, hydrogen: 0 });

/** Free oxygen less all that can burn: 1 for air, 0 for a matched mixture, below 0 for a rich one. */
export const excessOf = ({ oxygen, reductant, unburnt, hydrogen }: Gas): number =>
  oxygen - reductant - unburnt - hydrogen;

export function copyInto(to: Gas, from: Gas): void {
  to.oxygen = from.oxygen;
  to.reductant = from.reductant;
  to.unburnt = from.unburnt;
  to.hydrogen = from.hydrogen;
}

/** What a cylinder lets out: lit above 0.55 of the fuel it needs (own choice); `raw` of each burns up later (0.4 to 1 %, common practice). */
export function fromCylinder(into: Gas, fuel: number, raw: number, isLit: boolean): void {
  const isBurnt = isLit && fuel > 0.55;
  into.oxygen = isBurnt ? Math.max(0, 1 - fuel) + raw : 1;
  into.reductant = isBurnt ? Math.max(0, fuel - 1) + raw : 0;
  into.unburnt = isBurnt ? 0 : fuel;
  into.hydrogen = 0;
}

/** Litres that a gram of exhaust takes up at 101.3 kPa: R T / p with R of air. */
export const litresOfGram = (kelvin: number): number => (0.287 * kelvin) / 101.3;

/** A volume that is stirred at once: what leaves is its mean. */
export class Stirred {
  readonly gas = noGas();
  private readonly litres: number;
  constructor(litres: number) {
    this.litres = litres;
  }

  /** @param grams air and fuel that flow through it in this step. */
  take(from: Gas, grams: number, kelvin: number): Gas {
    const changes = (grams * litresOfGram(kelvin)) / this.litres;
    const share = changes / (1 + changes);
    const { gas } = this;
    gas.oxygen += share * (from.oxygen - gas.oxygen);
    gas.reductant += share * (from.reductant - gas.reductant);
    gas.unburnt += share * (from.unburnt - gas.unburnt);
    gas.hydrogen += share * (from.hydrogen - gas.hydrogen);
    return gas;
  }

  /** Air creeps in where nothing flows. */
  creep(share: number): void {
    const { gas } = this;
    gas.oxygen += share * (1 - gas.oxygen);
    gas.reductant -= share * gas.reductant;
    gas.unburnt -= share * gas.unburnt;
    gas.hydrogen -= share * gas.hydrogen;
  }
}

/** Outside air of `share` of the flow joins. */
export function joinAir(gas: Gas, share: number): void {
  const whole = 1 + share;
  gas.oxygen = (gas.oxygen + share) / whole;
  gas.reductant /= whole;
  gas.unburnt /= whole;
  gas.hydrogen /= whole;
}
