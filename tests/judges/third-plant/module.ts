// The engine module: what it injects, when it cuts, and how it holds the mixture by the front sensor. A switching front gets a
// proportional and integral loop looked up by load, with a delay on one side that trims by the rear; a wide-band front a slow loop
// under a square dither. Forms from memory of published controllers; all numbers are own choices.

import { Lag } from "./cell.ts";
import { stoichiometric } from "./engine.ts";

export interface ModuleSpec {
  readonly wide: boolean;
  /** Share of fuel per jump, and per s, idle and at load. */
  readonly jump: readonly [number, number];
  readonly slope: readonly [number, number];
  /** V about 0.45 that must be passed. */
  readonly dead: number;
  readonly dither: { readonly share: number; readonly hertz: number };
  /** Most that short and long trim may add or take. */
  readonly shortMost: number;
  readonly longMost: number;
  readonly longStart: number;
  /** V that the rear is held at; 1/s of its integral. 0: no trim by the rear. */
  readonly rearAim: number;
  readonly rearPace: number;
  readonly cuts: boolean;
  readonly cutDelay: number;
  /** 1/min below which fuel comes back; cuts begin this much above. */
  readonly cutBack: number;
  readonly cutAbove: number;
  /** Share of fuel more after a cut, and s for which at most. */
  readonly refill: number;
  readonly refillFor: number;
  /** % of the pedal, s, and share of fuel more at full load. */
  readonly full: { readonly pedal: number; readonly after: number; readonly share: number };
  readonly idle: number;
  /** degC of coolant above which the loop closes. */
  readonly closes: number;
  /** Factor of the air that it measures over the true one. */
  readonly meter: number;
}

export interface Senses {
  readonly front: number;
  readonly lambda: number;
  readonly rear: number;
  readonly rearAwake: boolean;
  readonly speed: number;
  readonly pedal: number;
  /** g/s, true, into the cylinders. */
  readonly air: number;
  readonly coolant: number;
  readonly sinceStart: number;
}

export const loops = { open: 1, closed: 2, driven: 4 } as const;

export class Module {
  short = 0;
  long: number;
  isCut = false;
  loop: 1 | 2 | 4 = loops.closed;
  /** Of the matched fuel. */
  wanted = 1;
  private isRich = false;
  private pending = -1;
  private off = 0;
  private full = 0;
  private refill = 0;
  private cutFor = 0;
  private sinceCut = 60;
  private phase = 0;
  private rearPart = 0;
  private rearSum = 0;
  private readonly rearMean = new Lag(4, 0.6);
  private readonly meter: Lag;

  readonly spec: ModuleSpec;
  constructor(spec: ModuleSpec, air: number) {
    this.spec = spec;
    this.long = spec.longStart;
    this.meter = new Lag(0.003, air);
  }

  /** @returns g/s to reach the cylinders, before the film is allowed for. */
  fuel(senses: Senses, step: number): number {
    const air = this.spec.meter * this.meter.follow(senses.air, step);
    this.cut(senses, step);
    this.enrich(senses, step);
    if (this.isCut) return 0;
    const trimmed = 1 + this.short + this.long;
    return (air / stoichiometric) * this.wanted * trimmed;
  }

  private cut({ speed, pedal, coolant }: Senses, step: number): void {
    const { cuts, cutDelay, cutBack, cutAbove, refill } = this.spec;
    this.off = pedal < 0.5 ? this.off + step : 0;
    const was = this.isCut;
    const from = was ? cutBack : cutBack + cutAbove;
    this.isCut = cuts && coolant > 45 && this.off > cutDelay && speed > from;
    if (this.isCut) {
      this.cutFor += step;
      this.sinceCut = 0;
    } else {
      if (was) this.refill = refill * (1 - Math.exp(-this.cutFor / 1.2));
      this.cutFor = 0;
      this.sinceCut += step;
    }
  }

  private enrich(senses: Senses, step: number): void {
    const { full, refillFor, closes } = this.spec;
    this.full = senses.pedal > full.pedal ? this.full + step : 0;
    // Fuel stays up until the rear shows that the catalyst is empty of air again, or for so long.
    const isBack = this.sinceCut > refillFor || (senses.rearAwake && senses.rear > 0.62 && this.sinceCut > 2);
    if (!this.isCut && isBack) this.refill *= 1 - step / 0.4;
    const isCold = senses.coolant < closes || senses.sinceStart < 8;
    const cold = isCold ? 0.02 + 0.14 * Math.max(0, (closes + 20 - senses.coolant) / 100) : 0;
    const isFull = this.full > full.after;
    const isOpen = this.isCut || isFull || isCold || this.refill > 0.012;
    this.loop = isCold ? loops.open : isOpen ? loops.driven : loops.closed;
    this.wanted = 1 + this.refill + cold + (isFull ? full.share : 0);
    if (isOpen) this.short += (0 - this.short) * (step / 0.6);
    else this.closed(senses, step);
  }

  private closed(senses: Senses, step: number): void {
    this.byRear(senses, step);
    if (this.spec.wide) this.byWide(senses, step);
    else this.bySwitch(senses, step);
    const { shortMost, longMost } = this.spec;
    this.short = clamp(this.short, shortMost);
    this.long = clamp(this.long + (this.short * step) / 25, longMost);
  }

  /** The rear moves the middle a little richer or leaner, over tens of seconds. */
  private byRear({ rear, rearAwake }: Senses, step: number): void {
    const { rearAim, rearPace } = this.spec;
    const error = Math.max(-0.25, Math.min(0.25, rearAim - this.rearMean.follow(rear, step)));
    if (!rearAwake || rearPace === 0) return;
    if (this.sinceCut > 6) this.rearSum = clamp(this.rearSum + rearPace * error * step, 0.5);
    this.rearPart = Math.max(-0.2, clamp(this.rearSum + error, 1));
  }

  private bySwitch(senses: Senses, step: number): void {
    const { spec } = this;
    const load = clamp01((senses.air - 3) / 25);
    const at = ([idle, loaded]: readonly [number, number]) => idle + (loaded - idle) * load;
    const isNow = senses.front > 0.45 + (this.isRich ? -spec.dead : spec.dead);
    if (isNow !== this.isRich && this.pending < 0) {
      // Waiting on the lean side's crossing keeps fuel up for longer, on the other side down.
      const wait = (isNow ? 1 : -1) * this.rearPart * (0.18 - 0.08 * load) + 0.03;
      this.pending = Math.max(0, wait);
    }
    const richer = 0.25 * this.rearPart;
    const ramp = at(spec.slope) * step;
    this.short += this.isRich ? -ramp * (1 - richer) : ramp * (1 + richer);
    if (this.pending < 0) return;
    this.pending -= step;
    if (this.pending >= 0) return;
    this.pending = -1;
    this.isRich = isNow;
    this.short += (isNow ? richer - 1 : richer + 1) * 1.6 * at(spec.jump);
  }

  private byWide({ lambda }: Senses, step: number): void {
    const { dither } = this.spec;
    this.phase = (this.phase + dither.hertz * step) % 1;
    const square = this.phase < 0.5 ? dither.share : -dither.share;
    this.wanted += square + 0.01 * this.rearPart;
    const error = Math.max(-0.1, Math.min(0.1, lambda - 1 / (1 + 0.01 * this.rearPart)));
    this.short += 0.55 * error * step;
  }
}

const clamp = (value: number, most: number): number => Math.min(most, Math.max(-most, value));
const clamp01 = (value: number): number => Math.min(1, Math.max(0, value));
