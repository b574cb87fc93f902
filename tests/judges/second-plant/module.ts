// The engine module of the second plant: jumps and ramps after a dwell, a rear loop that leans on the dwell, cuts and clear-out.

import { oxygenOfAir } from "./gas.ts";
import type { Moment } from "./road.ts";

export interface ModuleSpec {
  /** Shares of the fuel: the jump at a switch, the ramp per second at 10 g/s. */
  readonly jump: number;
  readonly ramp: number;
  /** s that it waits after a switch before it jumps; the rear loop makes one side longer. */
  readonly dwell: number;
  /** V wanted behind, and s of dwell that one volt of error brings in a second; 0: no rear loop. */
  readonly rearWanted: number;
  readonly rearGain: number;
  /** The most that short and long correction may be. */
  readonly reach: number;
  /** What the injectors give over what is asked, minus 1, and what has been learned of it. */
  readonly error: number;
  readonly learned: number;
  /** s after release until the cut, 1/min at which fuel comes back; a module that never cuts: Infinity. */
  readonly cutAfter: number;
  readonly cutUntil: number;
  /** Lambda in a hard pull, and s of it before that is asked. */
  readonly rich: number;
  readonly richAfter: number;
  /** After a cut: lambda until so many grams of oxygen have been asked back of the store, or the rear is rich. */
  readonly clearing: number;
  readonly clearingOxygen: number;
  /** s of warm-up in open loop after a cold start. */
  readonly openFor: number;
}

export const loops = { open: 1, closed: 2, driven: 4 } as const;

const task = 0.01;

/**
 * Two-point control: a proportional jump at each change of the sensor's side and a ramp between, as US 4 228 775 and US 7 343 734 tell it
 * (abstracts seen): the rhythm follows from the delay through engine and exhaust, so it is slow at idle and quick at high flow. The
 * dwell shifts the mean, which is how the rear sensor trims.
 */
export class EngineModule {
  loop: number = loops.open;
  short = 0;
  long: number;
  private isRich = false;
  private waits = 0;
  private jumpDue = false;
  private released = 0;
  private pulling = 0;
  private toClear = 0;
  private lean = 0;
  private runs = 0;
  private sinceTask = 0;
  private phi = 1;
  private front = 0.45;
  private rear = 0.45;

  private readonly spec: ModuleSpec;
  private readonly step: number;
  private readonly idleVolts: number;

  constructor(spec: ModuleSpec, step: number, idleVolts: number) {
    this.spec = spec;
    this.step = step;
    this.idleVolts = idleVolts;
    this.long = spec.learned;
  }

  /** One step. @returns fuel over what the air needs; 0 in a cut. */
  fuel(moment: Moment, airFlow: number, front: number, rear: number): number {
    this.front += (front - this.front) * 0.3;
    this.rear += (rear - this.rear) * 0.1;
    this.sinceTask += this.step;
    if (this.sinceTask < task) return this.phi;
    this.sinceTask -= task;
    this.phi = this.decide(moment, airFlow);
    return this.phi;
  }

  private decide(moment: Moment, airFlow: number): number {
    const { spec } = this;
    this.runs += moment.running && moment.speed > 400 ? task : 0;
    this.released = moment.foot === "off" ? this.released + task : 0;
    this.pulling = moment.foot === "down" ? this.pulling + task : 0;
    if (!moment.running) return this.openLoop(loops.driven, 0);
    if (this.released > spec.cutAfter && moment.speed > spec.cutUntil) {
      this.toClear = spec.clearingOxygen;
      return this.openLoop(loops.driven, 0);
    }
    const asked = this.asked();
    this.toClear = Math.max(0, this.toClear - oxygenOfAir * airFlow * Math.max(0, asked - 1) * task);
    return this.given(asked, airFlow);
  }

  private openLoop(loop: number, phi: number): number {
    this.loop = loop;
    this.short = 0;
    return phi;
  }

  /** 1/lambda meant. */
  private asked(): number {
    const { spec } = this;
    if (this.runs < spec.openFor) return this.openLoop(loops.open, 1.04);
    if (this.pulling > spec.richAfter && spec.rich < 0.985) return this.openLoop(loops.driven, 1 / spec.rich);
    if (this.toClear > 0 && this.rear < 0.62) return this.openLoop(loops.driven, 1 / spec.clearing);
    return 1;
  }

  private given(asked: number, airFlow: number): number {
    const { spec } = this;
    if (asked === 1) this.correct(airFlow);
    const keep = (value: number) => Math.min(spec.reach, Math.max(-spec.reach, value));
    this.short = keep(this.short);
    this.long = keep(this.long);
    return asked * (1 + this.short) * (1 + this.long) * (1 + spec.error);
  }

  private correct(airFlow: number): void {
    const { spec } = this;
    if (this.loop !== loops.closed) {
      this.loop = loops.closed;
      this.isRich = this.front > 0.45;
    }
    if (Math.abs(this.rear - this.idleVolts) > 0.03) {
      this.lean += spec.rearGain * (spec.rearWanted - this.rear) * task;
      const most = Math.max(0.8 * spec.dwell, 0.25);
      this.lean = Math.min(most, Math.max(-most, this.lean));
    }
    const rich = this.front > 0.45;
    if (rich !== this.isRich) {
      this.isRich = rich;
      // Wanted richer: longer before it answers a rich front.
      this.waits = Math.max(0, spec.dwell + (rich ? this.lean : -this.lean));
      this.jumpDue = true;
    }
    if (this.waits > 0) {
      this.waits -= task;
      return;
    }
    const way = rich ? -1 : 1;
    if (this.jumpDue) this.short += way * spec.jump;
    this.jumpDue = false;
    this.short += way * spec.ramp * (0.4 + airFlow / 16) * task;
    this.long += (this.short * task) / 40;
  }
}
