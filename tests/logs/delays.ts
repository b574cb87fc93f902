// Delays of lift-offs in slow logs against the truth of the drive in steps of 4 ms: the log is written as text and read as any other.

import { analyse } from "../../src/exhaust/analyse.ts";
import { openBytes } from "../capture/open.ts";
import { type Random, random } from "../reference/recorders.ts";
import { type Log, type Logged, type LogRule, logged, logOf } from "./log.ts";
import { type Drive, drive, someCar, somePlan } from "./plant.ts";

const headers: Readonly<Record<Logged, string>> = {
  engineSpeed: "Engine RPM (rpm)",
  throttle: "Throttle Position (%)",
  roadSpeed: "Speed (km/h)",
  airFlow: "Air flow (g/s)",
  front: "O2 B1S1 (V)",
  rear: "O2 B1S2 (V)",
};
const decimals: Readonly<Record<Logged, number>> = {
  engineSpeed: 2,
  throttle: 1,
  roadSpeed: 0,
  airFlow: 2,
  front: 3,
  rear: 3,
};

export interface DelayTrial {
  readonly rule: LogRule;
  readonly isStill: boolean;
  /** Closings that lasted until the rear fell. */
  readonly closings: number;
  readonly told: readonly {
    readonly truth: number;
    readonly low: number;
    readonly high: number;
    readonly isHeld: boolean;
  }[];
  /** Lift-offs that are none. */
  readonly invented: number;
}

/** One to fourteen rows a second, one to twelve channels in turn, held or blank between, jittered or even, rear noisy or still. */
export function someRule(next: Random, number: number): LogRule & { readonly isStill: boolean } {
  const isStill = number % 2 === 0;
  return {
    rows: next.between(1, 14),
    channels: logged,
    turn: 1 + Math.floor(12 * next.uniform()),
    between: number % 4 < 2 ? "held" : "blank",
    jitter: number % 3 === 0 ? 0 : 0.4 * next.uniform(),
    noise: isStill ? 0 : next.between(0.003, 0.015),
    quantum: isStill ? next.between(0.005, 0.02) : next.between(0.001, 0.005),
    isStill,
  };
}

export async function delayTrial(number: number): Promise<DelayTrial> {
  const next = random(40_000 + number);
  const store = [0.05, 0.2, 0.5, 1, 2][number % 5]!;
  const made = drive(someCar(next, store), somePlan(next, 4), number);
  const { isStill, ...rule } = someRule(next, number);
  const read = await openBytes(new TextEncoder().encode(textOf(logOf(made, rule, next), rule)), {});
  if (!read.ok) throw new Error(read.problem.what);
  const truths = truthsOf(made);
  const events = analyse(read.value, { bank: 1 }).liftOffs;
  const refresh = rule.turn / rule.rows;
  const told = truths.flatMap(({ at, delay }) => {
    const event = events.find((one) => Math.abs(one.at - at) < 3 + 2 * refresh);
    if (!event || event.rejected !== null || event.delay.grade === "not-resolvable") return [];
    const [low, high] = [event.delay.low ?? 0, event.delay.high ?? Infinity];
    // Gas cannot arrive before it left: a sensor that is quicker behind than before makes no delay below none.
    return [{ truth: delay, low, high, isHeld: low <= Math.max(0, delay) + 1e-9 && delay <= high + 1e-9 }];
  });
  const invented = events.filter(
    ({ at, rejected }) => rejected === null && !made.closings.some((one) => Math.abs(one - at) < 3 + 2 * refresh),
  ).length;
  return { rule, isStill, closings: truths.length, told, invented };
}

/** As the log writes it: what stands in a row before its channel was ever asked for is empty. */
export function textOf({ stamps, columns }: Log, rule: LogRule): string {
  const rows = Array.from(stamps, (stamp, i) => [
    (stamp - stamps[0]!).toFixed(3),
    ...rule.channels.map((name) => {
      const value = columns[name]![i]!;
      return Number.isNaN(value) ? "" : value.toFixed(decimals[name]);
    }),
  ]);
  const header = ["Time (s)", ...rule.channels.map((name) => headers[name])].join(",");
  return `${header}\n${rows.map((row) => row.join(",")).join("\n")}\n`;
}

/** From the front's fall through 0.45 V to the rear's, where both fall before the throttle opens again. */
function truthsOf({ closings, front, rear, step, throttle }: Drive) {
  return closings.flatMap((at) => {
    const begin = Math.round(at / step);
    let end = begin + Math.round(0.5 / step);
    while (end < throttle.length && throttle[end]! < throttle[begin + 100]! + 3) end++;
    const fall = (trace: Float64Array) => {
      let i = begin;
      while (i < end && trace[i]! >= 0.45) i++;
      return i < end ? i * step : null;
    };
    const [f, r] = [fall(front), fall(rear)];
    return f === null || r === null || rear[begin]! < 0.45 || front[begin]! < 0.45 ? [] : [{ at, delay: r - f }];
  });
}
