// A spark-ignition engine as mean values with its cylinders told apart: manifold filling, fuel film, torque, and what each
// cylinder lets out. Form after Hendricks and Aquino (X and tau of the film; SAE 810494), from memory.

import type { Chance } from "./chance.ts";
import { fromCylinder, type Gas, noGas } from "./gas.ts";

export interface EngineSpec {
  readonly litres: number;
  readonly cylinders: number;
  /** Filling at high manifold pressure, and what is lost of it toward low. */
  readonly filling: number;
  /** Share of the fuel that lands on the wall, and s in which it leaves. */
  readonly film: { readonly share: number; readonly seconds: number; readonly allowedFor: number };
  /** Factor of the fuel of each cylinder. */
  readonly balance: readonly number[];
  /** Share of oxygen, and of reductant, that a matched mixture leaves. */
  readonly raw: number;
  /** Which cylinder misses how often: share of its cycles. */
  readonly misfire: { readonly cylinder: number; readonly share: number };
  /** kg m2 */
  readonly inertia: number;
  /** Nm at idle of what the engine drives beside the car. */
  readonly accessories: number;
}

export const stoichiometric = 14.6;
const outside = 100;
/** J of p V per gram of air at 300 K: kPa l. */
const perGram = 86.1;

export class Engine {
  /** kPa in the manifold; 1/min; g/s through the throttle and into the cylinders. */
  pressure = 40;
  speed = 800;
  throttled = 0;
  breathed = 0;
  torque = 0;
  /** What the cylinder that is open now lets out. */
  readonly out: Gas = noGas();
  private film = 0;
  /** Fuel over what the air needs, per g of air: as it enters the cylinders. */
  private drawn = 1;
  private angle = 0;
  private turn = 0;
  private readonly waiting: number[] = [];
  private missed = 0;

  readonly spec: EngineSpec;
  private readonly chance: Chance;
  constructor(spec: EngineSpec, chance: Chance, fuel = 1) {
    this.spec = spec;
    this.chance = chance;
    this.drawn = fuel;
    fromCylinder(this.out, fuel, spec.raw, true);
  }

  /**
   * @param opening g/s of air that throttle and bypass let through at most.
   * @param fuel g/s injected.
   */
  run(opening: number, fuel: number, step: number): void {
    this.breathe(opening, step);
    this.wet(fuel, step);
    this.fire(step);
  }

  private breathe(opening: number, step: number): void {
    const { litres, filling } = this.spec;
    const ratio = Math.min(1, this.pressure / outside);
    // Choked below 0.53; the ellipse above it is the usual approximation, straight near 1 where nothing pulls.
    const through = ratio < 0.528 ? 1 : Math.sqrt(Math.max(0, 1 - ((ratio - 0.528) / 0.472) ** 2));
    this.throttled = opening * Math.min(through, 5 * (1 - ratio));
    const full = filling * (1 - 0.12 * (1 - ratio)) * (1 - 0.1 * ((this.speed - 3500) / 3500) ** 2);
    this.breathed = (full * litres * (this.speed / 120) * this.pressure) / perGram;
    this.pressure += ((perGram * (this.throttled - this.breathed)) / (1.2 + litres)) * step;
    this.pressure = Math.min(outside, Math.max(12, this.pressure));
  }

  private wet(fuel: number, step: number): void {
    const { share, seconds } = this.spec.film;
    const leaving = this.film / seconds;
    this.film += (share * fuel - leaving) * step;
    const cylinder = (1 - share) * fuel + leaving;
    this.drawn = this.breathed > 0.05 ? Math.min(4, (stoichiometric * cylinder) / this.breathed) : 0;
  }

  /** Fuel to inject so that `wanted` reaches the cylinders, by what the module believes of the film. */
  compensated(wanted: number, believed: number): number {
    const { share, seconds } = this.spec.film;
    const allowed = this.spec.film.allowedFor;
    const exact = Math.max(0, (wanted - believed / seconds) / (1 - share));
    return wanted + allowed * (exact - wanted);
  }

  /** Exhaust strokes: each lets out what its cylinder drew two turns and a stroke before. */
  private fire(step: number): void {
    const { cylinders, balance, raw, misfire } = this.spec;
    this.torque = this.meanTorque();
    this.angle += (this.speed / 60) * step;
    const apart = 2 / cylinders;
    if (this.angle < apart) return;
    this.angle -= apart;
    this.turn = (this.turn + 1) % cylinders;
    this.waiting.push(this.drawn * (balance[this.turn] ?? 1));
    if (this.waiting.length <= cylinders + 1) return;
    const isLit = !(this.turn === misfire.cylinder && this.chance.happens(misfire.share));
    const each = raw * Math.min(1, this.waiting[0]!) * (1 + 0.15 * this.chance.bell());
    fromCylinder(this.out, this.waiting.shift()!, Math.max(0, each), isLit);
    this.missed = isLit ? 0 : 1;
  }

  private meanTorque(): number {
    const { litres, cylinders, accessories } = this.spec;
    if (this.speed < 60) return 0;
    const perCycle = (this.breathed * 120) / this.speed;
    const lit = this.drawn > 0.55 ? 1 - (cylinders / 3) * 0.5 * this.missed : 0;
    const rubbed = litres * (5.5 + 0.0019 * this.speed) + accessories;
    const pumped = ((outside - this.pressure) * litres) / (4 * Math.PI);
    return 84 * perCycle * lit - rubbed - pumped;
  }
}
