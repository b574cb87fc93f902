// A driver who follows a plan of speeds: looks, decides, and moves a foot after a reaction; and the plans.

import type { Chance } from "./chance.ts";
import type { Car } from "./road.ts";

/** One intention. `to` km/h, `for` s, `foot` % of the pedal. */
export type Act =
  | { readonly do: "hold"; readonly to: number; readonly for: number }
  | { readonly do: "pull"; readonly foot: number; readonly to: number; readonly gear: number }
  | { readonly do: "coast"; readonly to: number; readonly for: number }
  | { readonly do: "stand"; readonly for: number; readonly stops: boolean }
  | { readonly do: "rev"; readonly to: number };

export type Outing = "test" | "town" | "cruise" | "yard" | "idle";

/** @param length s that the plan must last at least. */
export function planOf(outing: Outing, length: number, stops: boolean, chance: Chance): Act[] {
  const acts: Act[] = [];
  const one = { test: testLap, town: townLap, cruise: cruiseLap, yard: yardLap, idle: idleLap }[outing];
  for (let lap = 0; lap < 3 + length / 12; lap++) acts.push(...one(chance, stops, lap));
  return acts;
}

/** What a guide asks for: idle, a held speed, pulls with the foot taken off. */
function testLap(chance: Chance, stops: boolean, lap: number): Act[] {
  const cruise = chance.between(55, 95);
  const pulls = Array.from({ length: 2 + Math.floor(chance.between(0, 3)) }, (): Act[] => {
    const from = chance.between(35, 60);
    const to = from + chance.between(18, 40);
    return [
      { do: "hold", to: from, for: chance.between(1, 6) },
      { do: "pull", foot: chance.between(45, 100), to, gear: chance.pick([2, 2, 3]) },
      { do: "coast", to: from, for: chance.between(3.5, 9) },
    ];
  });
  const idle: Act = { do: "stand", for: chance.between(15, 40), stops };
  const held: Act = { do: "hold", to: cruise, for: chance.between(32, 55) };
  return lap === 0 && chance.happens(0.6) ? [idle, held, ...pulls.flat()] : [held, ...pulls.flat(), idle];
}

function townLap(chance: Chance, stops: boolean): Act[] {
  const to = chance.between(28, 58);
  return [
    { do: "hold", to, for: chance.between(5, 18) },
    ...(chance.happens(0.35) ? [{ do: "pull", foot: chance.between(35, 70), to: to + 15, gear: 2 } as const] : []),
    { do: "coast", to: to * chance.between(0.4, 0.7), for: chance.between(2, 6) },
    ...(chance.happens(0.5) ? [{ do: "stand", for: chance.between(5, 22), stops } as const] : []),
  ];
}

function cruiseLap(chance: Chance): Act[] {
  const to = chance.between(60, 115);
  const slower: Act = { do: "coast", to: to - chance.between(8, 25), for: chance.between(1.5, 5) };
  return [{ do: "hold", to, for: chance.between(25, 60) }, ...(chance.happens(0.6) ? [slower] : [])];
}

/** Standing in the yard: held speeds of the engine are not asked of this driver, snaps are. */
function yardLap(chance: Chance): Act[] {
  const snaps = Array.from({ length: 2 }, (): Act[] => [
    { do: "rev", to: chance.between(3200, 4800) },
    { do: "stand", for: chance.between(4, 9), stops: false },
  ]);
  return [{ do: "stand", for: chance.between(15, 30), stops: false }, ...snaps.flat()];
}

const idleLap = (chance: Chance): Act[] => [{ do: "stand", for: chance.between(30, 60), stops: false }];

export interface DriverSpec {
  /** s from seeing to doing; s between decisions; %/s of the foot. */
  readonly reaction: number;
  readonly looks: number;
  readonly foot: number;
  /** Calm 1 to hasty 2: m/s2 of wish. */
  readonly haste: number;
}

export class Driver {
  pedal = 0;
  /** m/s2 */
  brake = 0;
  /** False while the module has stopped the engine at a standstill. */
  wantsEngine = true;
  /** 1/min that a foot wants of an engine out of gear. */
  private goal = 0;
  private brakeGoal = 0;
  private steady = 12;
  private act = 0;
  private since = 0;
  private sinceLook = 0;
  private shiftLeft = 0;
  private reached = false;
  private tried = 0;
  private readonly seen: { at: number; kmh: number }[] = [];

  private readonly spec: DriverSpec;
  private readonly plan: readonly Act[];
  private readonly car: Car;
  constructor(spec: DriverSpec, plan: readonly Act[], car: Car) {
    this.spec = spec;
    this.plan = plan;
    this.car = car;
  }

  private get now(): Act {
    return this.plan[Math.min(this.act, this.plan.length - 1)]!;
  }

  /** Puts the car on the road as if it had been driven before the recording. */
  begin(): void {
    const act = this.now;
    if (act.do !== "hold") return;
    this.car.pace = act.to / 3.6;
    this.pickGear(1);
    this.car.clutch = 1;
  }

  drive(at: number, speed: number, step: number): void {
    this.sinceLook += step;
    this.since += step;
    if (this.sinceLook >= this.spec.looks) {
      this.sinceLook = 0;
      this.look(at);
      this.decide();
    }
    if (this.now.do === "rev") this.rev(this.now.to, speed);
    this.clutchAndGears(speed, step);
    const aim = this.shiftLeft > 0 && !this.car.spec.automatic ? 0 : this.goal;
    const rate = this.spec.foot * step * (aim < this.pedal ? 1.6 : 1);
    this.pedal += Math.max(-rate, Math.min(rate, aim - this.pedal));
    this.brake += Math.max(-8 * step, Math.min(8 * step, this.brakeGoal - this.brake));
  }

  private look(at: number): void {
    this.seen.push({ at, kmh: this.car.kmh });
    while (this.seen.length > 1 && this.seen[1]!.at <= at - this.spec.reaction) this.seen.shift();
  }

  private next(): void {
    this.act++;
    this.since = 0;
    this.reached = false;
    this.tried = 0;
    this.brakeGoal = 0;
  }

  private decide(): void {
    const kmh = this.seen[0]!.kmh;
    const act = this.now;
    if (act.do === "hold") this.hold(act.to, act.for, kmh);
    else if (act.do === "pull") this.pull(act, kmh);
    else if (act.do === "coast") this.coast(act, kmh);
    else if (act.do === "stand") this.stand(act);
  }

  private hold(to: number, seconds: number, kmh: number): void {
    const short = to - kmh;
    // Who does not get there in half a minute takes what the car gives.
    this.tried += this.spec.looks;
    if (Math.abs(short) < 4 || this.tried > 30) this.reached = true;
    if (!this.reached) this.since = 0;
    else if (this.since > seconds) {
      this.next();
      return;
    }
    const bound = 9 * this.spec.haste;
    const wish = Math.max(-bound, Math.min(2.2 * bound, 1.7 * short));
    // The foot at which the car holds its speed is learned slowly; drivers keep it still while the speed is about right.
    if (Math.abs(short) < 6) this.steady += 0.25 * short * this.spec.looks;
    this.steady = Math.max(4, Math.min(45, this.steady));
    if (Math.abs(short) > 1.2 || !this.reached) this.goal = short < -7 ? 0 : Math.max(0, this.steady + wish);
    this.brakeGoal = short < -12 ? 1.2 : 0;
  }

  private pull({ foot, to }: Act & { do: "pull" }, kmh: number): void {
    this.goal = foot;
    if (kmh >= to || this.since > 9) this.next();
  }

  private coast({ to, for: seconds }: Act & { do: "coast" }, kmh: number): void {
    this.goal = 0;
    this.brakeGoal = this.since > seconds ? 1.5 : 0;
    if (kmh <= to) this.next();
  }

  private rev(to: number, speed: number): void {
    this.goal = 40;
    if (speed > to || this.since > 3) {
      this.goal = 0;
      this.next();
    }
  }

  private stand({ for: seconds, stops }: Act & { do: "stand" }): void {
    this.goal = 0;
    const { car } = this;
    if (car.kmh > 1) {
      this.since = 0;
      this.brakeGoal = this.spec.haste;
      return;
    }
    this.brakeGoal = 3;
    this.wantsEngine = !(stops && this.since > 1.5 && this.since < seconds - 1);
    if (this.since > seconds) this.next();
  }

  /** Gears by engine speed; a clutch that opens for a moment, or a converter that slips. */
  private clutchAndGears(speed: number, step: number): void {
    const { car } = this;
    const isOff =
      this.now.do === "rev" ||
      (this.now.do === "stand" && (car.spec.automatic ? car.kmh < 4 : car.turned(car.gear) < 1000));
    const rolls = car.turned(car.gear) > 900;
    this.shiftLeft -= step;
    if (this.shiftLeft <= 0 && !isOff) this.changeGear();
    const shut = isOff
      ? 0
      : this.shiftLeft > 0
        ? car.spec.automatic
          ? 0.5
          : 0
        : rolls
          ? 1
          : this.goal > 0 && speed > 900
            ? 0.32
            : 0;
    car.clutch += Math.max(-8 * step, Math.min((shut > 0.5 ? 2.5 : 1.2) * step, shut - car.clutch));
    if (car.kmh < 3 && isOff) car.gear = 0;
  }

  private changeGear(): void {
    const { car, now } = this;
    const turns = car.turned(car.gear);
    const up = 1900 + 35 * this.pedal + (now.do === "pull" ? 1800 : 0);
    const last = car.spec.gears.length - 1;
    if (now.do === "pull" && this.since < 0.5 && car.gear > now.gear && car.turned(now.gear) < 3600)
      this.shift(now.gear);
    else if (turns > up && car.gear < last && this.pedal > 3 && car.turned(car.gear + 1) > 1250)
      this.shift(car.gear + 1);
    else if (turns < 1080 && car.gear > 0 && (car.spec.automatic || now.do !== "stand")) this.shift(car.gear - 1);
  }

  private shift(gear: number): void {
    this.car.gear = gear;
    this.shiftLeft = this.car.spec.automatic ? 0.25 : 0.55;
  }

  private pickGear(clutch: number): void {
    const { car } = this;
    const last = car.spec.gears.length - 1;
    for (let gear = last; gear >= 0; gear--) {
      car.gear = gear;
      if (car.turned(gear) > 1450) break;
    }
    car.clutch = clutch;
  }
}
