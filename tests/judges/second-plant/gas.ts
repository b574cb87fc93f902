// A gram of the engine's air and what is left in it after the fire; and pipes that it goes through as plugs.

/** Mass share of oxygen in dry air: 20.95 % by volume, 31.998 over 28.96 g/mol. */
export const oxygenOfAir = (0.2095 * 31.998) / 28.96;

/** All per gram of air drawn, as grams of oxygen: free, and what reductants would take. */
export interface Gas {
  oxygen: number;
  /** Carbon monoxide and hydrogen; of it, the hydrogen. */
  reductant: number;
  hydrogen: number;
  /** Fuel that never burned: it takes oxygen on a hot catalyst, hardly on a sensor. */
  unburnt: number;
}

/**
 * Raw exhaust of a mixture. Even at lambda 1 about 0.7 % oxygen and as much to burn it with leave the engine, a third of it
 * hydrogen (from memory, Heywood, Internal Combustion Engine Fundamentals, ch. 4 and 11).
 *
 * @param excess 1 - 1/lambda; 1: air alone.
 */
export function rawExhaust(excess: number, into: Gas): Gas {
  const left = 0.0065 * Math.max(0, 1 - Math.abs(excess) * 3);
  into.oxygen = left + oxygenOfAir * Math.max(0, excess);
  into.reductant = left + oxygenOfAir * Math.max(0, -excess);
  into.hydrogen = 0.3 * into.reductant;
  into.unburnt = 0;
  return into;
}

/** Outside air joins in. @param air grams of it, per gram of the engine's. */
export function joinAir(gas: Gas, air: number): void {
  if (!(air > 0)) return;
  const share = 1 / (1 + air);
  gas.oxygen = (gas.oxygen + air * oxygenOfAir) * share;
  gas.reductant *= share;
  gas.hydrogen *= share;
  gas.unburnt *= share;
}

/** Hot gas, litres per gram: ideal gas at 101 kPa, R = 287 J/(kg K). */
export const litresOfGram = (kelvin: number) => (287 * kelvin) / 101_300;

/** Parcels in, parcels out, in order; what is within holds `litres`. */
export class Plug {
  private readonly parcels: Float64Array;
  private first = 0;
  private count = 0;
  private held = 0;

  private readonly litres: number;
  private readonly room: number;

  constructor(litres: number, room = 1 << 15) {
    this.litres = litres;
    this.room = room;
    this.parcels = new Float64Array(5 * room);
  }

  /** Pushes one in and tells what stands at the outlet now. */
  through(gas: Gas, volume: number, out: Gas): Gas {
    if (this.count < this.room) {
      const at = 5 * ((this.first + this.count) % this.room);
      this.parcels.set([volume, gas.oxygen, gas.reductant, gas.hydrogen, gas.unburnt], at);
      this.count++;
      this.held += volume;
    }
    while (this.count > 1 && this.held - this.parcels[5 * this.first]! >= this.litres) {
      this.held -= this.parcels[5 * this.first]!;
      this.first = (this.first + 1) % this.room;
      this.count--;
    }
    const at = 5 * this.first;
    out.oxygen = this.parcels[at + 1]!;
    out.reductant = this.parcels[at + 2]!;
    out.hydrogen = this.parcels[at + 3]!;
    out.unburnt = this.parcels[at + 4]!;
    return out;
  }
}

/** Mixing in a small volume: first order, its time falls as flow rises. */
export class Stirred {
  private readonly inside: Gas = rawExhaust(0, { oxygen: 0, reductant: 0, hydrogen: 0, unburnt: 0 });

  /** @param grams of gas that are stirred together. */
  private readonly grams: number;

  constructor(grams: number) {
    this.grams = grams;
  }

  through(gas: Gas, grams: number): Gas {
    const share = 1 - Math.exp(-grams / this.grams);
    const { inside } = this;
    inside.oxygen += (gas.oxygen - inside.oxygen) * share;
    inside.reductant += (gas.reductant - inside.reductant) * share;
    inside.hydrogen += (gas.hydrogen - inside.hydrogen) * share;
    inside.unburnt += (gas.unburnt - inside.unburnt) * share;
    return inside;
  }
}
