// A drive as it happens: a car with mass on a road with hills, and a driver who wants speeds, shifts, waits and now and then pulls.

import type { Chance } from "./chance.ts";

/** "mixed" holds all; the others leave something out. */
export const outings = ["mixed", "cruise", "pulls", "town", "idle", "start"] as const;
export type Outing = (typeof outings)[number];

export interface CarBody {
  readonly litres: number;
  /** kg; N at rest and N s2/m2. */
  readonly mass: number;
  readonly rolling: number;
  readonly drag: number;
  /** 1/min for each km/h, by gear. */
  readonly ratios: readonly number[];
  /** Filling at which the engine just turns, and on the overrun. */
  readonly idleFilling: number;
  readonly shutFilling: number;
  readonly idleSpeed: number;
  readonly plate: "cable" | "motor" | "none";
  readonly stopsEngine: boolean;
}

export interface Moment {
  /** 1/min, share of a full charge, % and km/h. */
  speed: number;
  filling: number;
  throttle: number;
  road: number;
  foot: "off" | "on" | "down";
  running: boolean;
}

interface Wish {
  readonly kind: "hold" | "stand" | "pull" | "coast";
  readonly seconds: number;
  /** km/h. */
  readonly to: number;
}

export interface Drive {
  readonly seconds: number;
  readonly wishes: readonly Wish[];
}

export function planDrive(outing: Outing, chance: Chance): Drive {
  const hold = (to: number, least: number, most: number): Wish => ({
    kind: "hold",
    to,
    seconds: chance.between(least, most),
  });
  const stand = (least: number, most: number): Wish => ({ kind: "stand", to: 0, seconds: chance.between(least, most) });
  const pull = (): Wish[] => [
    { kind: "pull", to: 200, seconds: chance.between(1.5, 3.8) },
    { kind: "coast", to: 0, seconds: chance.between(2.5, 7) },
    hold(chance.between(60, 100), 6, 14),
  ];
  const street = (): Wish[] => [
    hold(chance.between(25, 58), 8, 22),
    ...(chance.happens(0.6) ? [{ kind: "coast", to: 0, seconds: chance.between(2, 5) } as const] : []),
    stand(6, 20),
  ];
  const cruise = () => hold(chance.between(60, 120), 46, 75);
  const several = <T>(least: number, most: number, make: () => T[]) =>
    Array.from({ length: Math.round(chance.between(least, most)) }, make).flat();
  const plans: Record<Outing, () => Wish[]> = {
    mixed: () => [stand(25, 60), ...several(0, 2, street), cruise(), ...several(2, 4, pull), ...several(0, 2, street)],
    cruise: () => [stand(15, 40), cruise(), cruise()],
    pulls: () => [hold(chance.between(50, 90), 14, 20), ...several(3, 6, pull)],
    town: () => [stand(5, 15), ...several(5, 8, street)],
    idle: () => [stand(60, 90)],
    start: () => [stand(60, 80)],
  };
  const wishes = plans[outing]();
  return { wishes, seconds: wishes.reduce((sum, { seconds }) => sum + seconds, 0) };
}

/** Longitudinal dynamics: force of the engine in its gear, less rolling, drag and slope. Coefficients from memory. */
export class Driver {
  readonly now: Moment;
  private place = 0;
  private gone = 0;
  private gear = 0;
  private clutch = 0;
  private stopped = 0;
  private slope = 0;
  private nervous = 0;
  private flutter = 0;
  private plate = 0;

  private readonly body: CarBody;
  private readonly drive: Drive;
  private readonly chance: Chance;
  private readonly step: number;

  constructor(body: CarBody, drive: Drive, chance: Chance, step: number) {
    this.body = body;
    this.drive = drive;
    this.chance = chance;
    this.step = step;
    const road = drive.wishes[0]!.kind === "hold" ? drive.wishes[0]!.to : 0;
    this.now = { speed: body.idleSpeed, filling: body.idleFilling, throttle: 0, road, foot: "off", running: true };
    this.gear = this.gearFor(road);
    if (road > 0) this.now.speed = road * body.ratios[this.gear]!;
  }

  /** One step on. */
  next(): Moment {
    const { body, step, now } = this;
    const wish = this.wish();
    this.slope += 0.012 * this.chance.bell() * Math.sqrt(2 * step * 0.05) - this.slope * 0.05 * step || 0;
    this.nervous += 0.05 * this.chance.bell() * Math.sqrt(2 * step * 0.8) - this.nervous * 0.8 * step;
    const wanted = this.fillingFor(wish);
    const quick = wanted < now.filling ? 0.09 : 0.14;
    now.filling += (Math.max(body.shutFilling, Math.min(1, wanted)) - now.filling) * (1 - Math.exp(-step / quick));
    this.move(wish);
    this.turn(wish);
    now.throttle = this.plateFor();
    return now;
  }

  private wish(): Wish {
    const { wishes } = this.drive;
    this.gone += this.step;
    while (this.place < wishes.length - 1 && this.gone > wishes[this.place]!.seconds) {
      this.gone -= wishes[this.place]!.seconds;
      this.place++;
    }
    return wishes[this.place]!;
  }

  private fillingFor(wish: Wish): number {
    const { body, now } = this;
    now.foot = "off";
    if (!now.running) return body.idleFilling;
    if (wish.kind === "stand" && now.road < 1) return body.idleFilling * (1 + 0.3 * this.nervous);
    if (this.clutch > 0) return body.shutFilling;
    if (wish.kind === "pull") {
      now.foot = "down";
      return 0.9;
    }
    if (wish.kind === "coast" || (wish.kind === "stand" && now.road > 0)) return body.shutFilling;
    const lack = (wish.to - now.road) / 3.6;
    const pull = Math.max(-1, Math.min(1.9, 0.35 * lack)) + 0.5 * this.nervous;
    const torque = this.torqueFor(pull);
    const filling = 0.16 + 0.84 * (torque / (95 * body.litres));
    if (filling < body.shutFilling + 0.02) return body.shutFilling;
    now.foot = "on";
    return Math.min(0.8, filling);
  }

  /** Nm at the crank for an acceleration, m/s2, at today's gear. */
  private torqueFor(acceleration: number): number {
    const { body, now } = this;
    const speed = Math.max(1.5, now.road / 3.6);
    const force = body.mass * (acceleration + 9.81 * this.slope) + body.rolling + body.drag * speed * speed;
    return (force * speed) / ((2 * Math.PI * Math.max(now.speed, 700)) / 60);
  }

  private move(wish: Wish): void {
    const { body, now, step } = this;
    const speed = Math.max(0.8, now.road / 3.6);
    const isDriven = this.clutch <= 0 && now.running && !(wish.kind === "stand" && now.speed <= body.idleSpeed * 1.05);
    const torque = isDriven ? 95 * body.litres * ((now.filling - 0.16) / 0.84) : 0;
    const power = torque * ((2 * Math.PI * now.speed) / 60);
    const isTooFast = wish.kind === "hold" && now.road > wish.to + 8;
    const brake = wish.kind === "stand" ? 2.4 : isTooFast ? 2.2 : 0;
    const force = power / speed - body.rolling - body.drag * speed * speed - body.mass * (9.81 * this.slope + brake);
    now.road = Math.max(0, now.road + 3.6 * (force / body.mass) * step);
  }

  private turn(wish: Wish): void {
    const { body, now, step } = this;
    this.clutch = Math.max(0, this.clutch - step);
    const wanted = this.gearFor(now.road, wish.kind);
    if (wanted !== this.gear && this.clutch <= 0 && wish.kind !== "pull" && wish.kind !== "coast") {
      this.gear = wanted;
      this.clutch = this.chance.between(0.3, 0.8);
    }
    if (wish.kind === "stand" && now.road < 0.5) {
      this.standing();
      return;
    }
    this.start();
    const geared = Math.max(body.idleSpeed, now.road * body.ratios[this.gear]!);
    now.speed += (geared - now.speed) * (1 - Math.exp(-step / (this.clutch > 0 ? 0.4 : 0.08)));
  }

  private standing(): void {
    const { body, now, step } = this;
    this.stopped += step;
    this.gear = 0;
    // One second of standstill, then the engine goes out; it comes back a little before the car moves off.
    const left = this.drive.wishes[this.place]!.seconds - this.gone;
    const isOut = body.stopsEngine && this.stopped > 1 && left > 1.5 && this.place > 0;
    now.running = !isOut;
    this.flutter += 14 * this.chance.bell() * Math.sqrt(2 * step * 3) - this.flutter * 3 * step;
    const target = isOut ? 0 : body.idleSpeed + this.flutter;
    now.speed = Math.max(0, now.speed + (target - now.speed) * (1 - Math.exp(-step / (isOut ? 0.2 : 0.35))));
    if (isOut && now.speed < 30) now.speed = 0;
  }

  private start(): void {
    this.stopped = 0;
    this.now.running = true;
  }

  private gearFor(road: number, kind: Wish["kind"] = "hold"): number {
    const { ratios, idleSpeed } = this.body;
    const [up, down] = kind === "pull" ? [5200, 2600] : [2500, idleSpeed * 1.45];
    let gear = Math.min(this.gear, ratios.length - 1);
    while (gear < ratios.length - 1 && road * ratios[gear]! > up) gear++;
    while (gear > 0 && road * ratios[gear]! < down) gear--;
    return gear;
  }

  /** %: from the filling by plate and pedal; the valves of an engine without a plate meter by themselves. */
  private plateFor(): number {
    const { body, now, step } = this;
    if (body.plate === "none") return 82 + 3 * now.filling;
    const open = Math.max(0, now.filling - body.shutFilling) * (40 + now.speed / 90);
    const wanted = now.foot === "down" ? Math.max(78, open) : now.foot === "off" ? 0 : Math.min(72, open);
    this.plate += (wanted - this.plate) * (1 - Math.exp(-step / (body.plate === "motor" ? 0.28 : 0.05)));
    return (body.plate === "motor" ? 9 : 3) + this.plate * 0.9;
  }
}
