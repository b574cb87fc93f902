// A made-up car for trials of logs: a driver's plan, a loop of its own, a store and two sensors, in steps of 4 ms.

import { type Random, random } from "../reference/recorders.ts";

/** One part of a drive. `creep`: the mixture turns lean for a while, with the foot and the speed steady. */
export interface Leg {
  readonly kind: "idle" | "cruise" | "pull" | "closing" | "creep";
  readonly seconds: number;
}

export interface Car {
  /** Oxygen that the catalyst holds, g. */
  readonly store: number;
  /** First-order lags of the sensors, s. */
  readonly frontLag: number;
  readonly rearLag: number;
  /** Air drawn in at cruise, g/s. */
  readonly flow: number;
  /** Time from the injector to the front sensor at cruise, s: sets the pace of the loop. */
  readonly delay: number;
  /** Added to both sensors, V. */
  readonly offset: number;
  /** Range of the throttle's reading: closed, cruise, pull; %. */
  readonly throttle: readonly [number, number, number];
}

export interface Drive {
  readonly step: number;
  readonly front: Float64Array;
  readonly rear: Float64Array;
  readonly throttle: Float64Array;
  readonly engineSpeed: Float64Array;
  readonly roadSpeed: Float64Array;
  readonly airFlow: Float64Array;
  /** When the throttle closed at speed, s. */
  readonly closings: readonly number[];
}

const step = 0.004;

/** A car somewhere between the usual ends; `store` is the one thing a caller chooses. */
export function someCar(next: Random, store: number): Car {
  const closed = next.uniform() < 0.7 ? 0 : 12 * next.uniform();
  return {
    store,
    frontLag: next.between(0.03, 0.12),
    rearLag: next.between(0.04, 0.2),
    flow: next.between(5, 20),
    delay: next.between(0.15, 0.6),
    offset: 0,
    throttle: [closed, closed + next.between(8, 20), closed + next.between(35, 70)],
  };
}

/** Idle, cruise, and pulls that end with a closed throttle; about 40 s for each closing. */
export function somePlan(next: Random, closings: number): Leg[] {
  const legs: Leg[] = [
    { kind: "idle", seconds: 20 + 20 * next.uniform() },
    { kind: "cruise", seconds: 40 + 30 * next.uniform() },
  ];
  for (let k = 0; k < closings; k++) {
    legs.push({ kind: "pull", seconds: 4 + 3 * next.uniform() });
    legs.push({ kind: "closing", seconds: 5 + 5 * next.uniform() });
    legs.push({ kind: "cruise", seconds: 20 + 10 * next.uniform() });
  }
  return legs;
}

/** Runs a car through a plan. Same car, plan and number: same drive. */
export function drive(car: Car, plan: readonly Leg[], number: number): Drive {
  const next = random(number);
  const count = Math.round(plan.reduce((sum, { seconds }) => sum + seconds, 0) / step);
  const channel = () => new Float64Array(count);
  const out = {
    step,
    front: channel(),
    rear: channel(),
    throttle: channel(),
    engineSpeed: channel(),
    roadSpeed: channel(),
    airFlow: channel(),
    closings: [] as number[],
  };
  const state = { speed: 800, road: 0, foot: car.throttle[0], front: 0.45, rear: 0.7, held: 0.5 * car.store };
  const loop = { e: 0.01, trim: 0, lean: 0 };
  const pipe: number[] = [];
  let [leg, until] = [-1, 0];
  for (let i = 0; i < count; i++) {
    const t = i * step;
    while (t >= until && leg < plan.length - 1) {
      leg++;
      until += plan[leg]!.seconds;
      if (plan[leg]!.kind === "closing") out.closings.push(t);
      if (plan[leg]!.kind === "creep") loop.lean = 0.4 * plan[leg]!.seconds;
    }
    const { kind } = plan[leg]!;
    move(state, kind, car, next);
    const flow = flowOf(state, car);
    pipe.push(mixture(kind, loop, state, car, next));
    const e = pipe[Math.max(0, pipe.length - 1 - Math.round((car.delay * Math.sqrt(car.flow / flow)) / step))]!;
    const through = store(state, car, e, flow);
    state.front += ((voltage(e, 0.9, 0) - state.front + car.offset) * step) / car.frontLag;
    state.rear += ((voltage(through, 0.8, 0.0025) - state.rear + car.offset) * step) / car.rearLag;
    out.front[i] = state.front;
    out.rear[i] = state.rear;
    out.throttle[i] = state.foot;
    out.engineSpeed[i] = state.speed;
    out.roadSpeed[i] = state.road;
    out.airFlow[i] = flow;
  }
  return out;
}

interface Motion {
  speed: number;
  road: number;
  foot: number;
  front: number;
  rear: number;
  /** Oxygen held, g. */
  held: number;
}

function move(state: Motion, kind: Leg["kind"], { throttle }: Car, next: Random): void {
  const [closed, cruise, wide] = throttle;
  const foot = kind === "pull" ? wide : kind === "cruise" || kind === "creep" ? cruise : closed;
  state.foot += (foot - state.foot) * Math.min(1, step / 0.12) + 0.02 * next.normal();
  state.foot = Math.max(closed, state.foot);
  const speed = { idle: 800, cruise: 2200, creep: 2200, pull: 3800, closing: 1400 }[kind];
  const pace = { idle: 1, cruise: 1.2, creep: 1.2, pull: 2.5, closing: 4 }[kind];
  state.speed += ((speed - state.speed) * step) / pace + 0.3 * next.normal();
  state.road += ((kind === "idle" ? 0 : state.speed / 35) - state.road) * (step / 1.5);
}

/** Idle draws a fifth of cruise; a closed throttle at speed a third; a pull three times as much. */
function flowOf({ speed, foot }: Motion, { flow, throttle }: Car): number {
  const opening = (foot - throttle[0]) / (throttle[1] - throttle[0]);
  return (flow * speed * (0.3 + 0.7 * Math.min(opening, 4))) / 2200;
}

/** Share of free oxygen that leaves the engine: the loop hunts, a pull is rich, a closed throttle cuts the fuel. */
function mixture(kind: Leg["kind"], loop: Loop, state: Motion, { offset }: Car, next: Random): number {
  if (kind === "closing") return 1;
  if (kind === "pull") return -0.08;
  if (loop.lean > 0) {
    loop.lean -= step;
    return 0.06;
  }
  const wasRich = loop.e > 0;
  const isRich = state.front - offset > 0.45;
  if (isRich !== wasRich) loop.e = (isRich ? 0.02 : -0.02) * (0.8 + 0.4 * next.uniform());
  loop.e += (isRich ? 1 : -1) * 0.02 * step;
  loop.e = Math.max(-0.04, Math.min(0.04, loop.e));
  // The rear's own slow loop keeps it a little rich.
  loop.trim += (state.rear - offset > 0.65 ? 1 : -1) * 0.001 * step;
  loop.trim = Math.max(-0.005, Math.min(0.002, loop.trim));
  return loop.e + loop.trim;
}

interface Loop {
  e: number;
  trim: number;
  /** Left of a lean spell that nobody asked for, s. */
  lean: number;
}

/** What leaves the catalyst: the fuller it is, the more of the lean passes; the emptier, the more of the rich. */
function store(state: Motion, { store: most }: Car, e: number, flow: number): number {
  const full = state.held / most;
  const slip = e > 0 ? full ** 8 : (1 - full) ** 8;
  state.held = Math.max(0, Math.min(most, state.held + 0.2314 * flow * e * (1 - slip) * step));
  return e * slip;
}

const voltage = (e: number, most: number, rich: number): number =>
  0.05 + ((most - 0.05) * (1 - Math.tanh((e - rich) / 0.004))) / 2;
