// A car on a road: clutch or converter, gears, and the mass of it.

import type { Engine } from "./engine.ts";

export interface BodySpec {
  readonly mass: number;
  /** m2 */
  readonly drag: number;
  /** km/h per 1,000 1/min of each gear. */
  readonly gears: readonly number[];
  readonly automatic: boolean;
}

export class Car {
  /** m/s */
  pace = 0;
  gear = 0;
  /** 0 open to 1 shut. */
  clutch = 0;
  readonly spec: BodySpec;
  private readonly engine: Engine;
  constructor(spec: BodySpec, engine: Engine) {
    this.spec = spec;
    this.engine = engine;
  }

  get kmh(): number {
    return 3.6 * this.pace;
  }

  /** 1/min at which the wheels would turn the engine in a gear. */
  turned(gear: number): number {
    return (1000 * this.kmh) / this.spec.gears[gear]!;
  }

  /** @param brake m/s2; @param isRunning false: the engine stands still; @param slope m/s2 that the road takes. */
  move(brake: number, isRunning: boolean, slope: number, step: number): void {
    const { engine, spec } = this;
    const perSpeed = Math.PI / 30;
    const slip = (engine.speed - this.turned(this.gear)) * perSpeed;
    const stiff = spec.automatic ? 2.2 : 5;
    const most = 260 * this.clutch;
    const through = Math.max(-most, Math.min(most, stiff * this.clutch * slip));
    engine.speed += ((engine.torque - through) / engine.spec.inertia / perSpeed) * step;
    engine.speed = isRunning ? Math.max(380, engine.speed) : Math.max(0, engine.speed - 2500 * step);
    const ratio = (1000 * perSpeed * 3.6) / spec.gears[this.gear]!;
    const push = (0.92 * through * ratio) / spec.mass;
    const held = (0.6 * spec.drag * (this.pace * this.pace)) / spec.mass + (this.pace > 0.1 ? 0.11 + slope : 0) + brake;
    this.pace = Math.max(0, this.pace + (push - held) * step);
  }
}
