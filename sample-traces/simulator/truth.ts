// What really happened, told in seconds from a capture's first sample: the judge of every measurement.

import type { StretchKind } from "../../src/exhaust/terms/analysis.ts";
import type { SensorSpec } from "./car.ts";
import { activeShare } from "./catalyst.ts";
import { phaseStarts } from "./drive.ts";
import { oxygenInAir } from "./gas.ts";
import type { History } from "./run.ts";
import { awakeShare } from "./sensor.ts";

export interface Truth {
  readonly simulated: true;
  /** g: what the hot catalyst can hold. */
  readonly catalystCapacity: number;
  /** Share of any excess that passes it whatever is stored. */
  readonly catalystSlip: number;
  /** When 90 % of the catalyst works, when each sensor's element is warm enough to be read; null: never. */
  readonly catalystHotAt: number | null;
  readonly frontAwakeAt: number | null;
  readonly rearAwakeAt: number | null;
  readonly stretches: readonly { readonly kind: StretchKind; readonly from: number; readonly to: number }[];
  readonly liftOffs: readonly TrueLiftOff[];
  /** Every crossing of 0.45 V by the voltage free of the recorder's noise, falling and rising. */
  readonly frontFalls: readonly number[];
  readonly frontRises: readonly number[];
  readonly rearFalls: readonly number[];
  readonly rearRises: readonly number[];
}

export interface TrueLiftOff {
  /** Throttle let go. */
  readonly at: number;
  readonly cutFrom: number;
  readonly cutTo: number;
  /** Falls through 0.45 V; null where the sensor did not fall in this cut from above 0.5 V. */
  readonly frontFall: number | null;
  readonly rearFall: number | null;
  /** rearFall - frontFall, s. */
  readonly delay: number | null;
  /** g: air flow x 0.2314 between the two falls. */
  readonly oxygenPassed: number | null;
  /** g that the catalyst held at the cut, and when the rear fell (at the end of the cut where it did not). */
  readonly storedBefore: number;
  readonly storedAfter: number;
  /** g/s, mean between the falls (over the cut where there are none); 1/min at the front's fall. */
  readonly airFlow: number;
  readonly engineSpeed: number;
}

/** @param start second of the drive at which the capture's first sample was taken. */
export function tellTruth(history: History, start: number): Truth {
  const { car } = history;
  const rounded = (seconds: number) => Math.round((seconds - start) * 1e6) / 1e6;
  const front = crossings(history.frontVoltage, history.step);
  const rear = crossings(history.rearVoltage, history.step);
  const recorded = (times: number[]) => times.filter((t) => t >= start).map(rounded);
  const first = (isSo: (i: number) => boolean) => {
    for (let i = 0; i < history.count; i++) if (isSo(i)) return rounded(i * history.step);
    return null;
  };
  return {
    simulated: true,
    catalystCapacity: car.catalyst.capacity,
    catalystSlip: car.catalyst.slip,
    catalystHotAt: first((i) => activeShare(car.catalyst, history.catalystTemperature[i]!) > 0.9),
    frontAwakeAt: first(isAwake(history, car.front)),
    rearAwakeAt: first(isAwake(history, car.rear)),
    stretches: stretches(history, rounded),
    liftOffs: cuts(history)
      .filter(({ from }) => from * history.step >= start)
      .map((cut) => liftOff(history, cut, { front: front.falls, rear: rear.falls }, rounded)),
    frontFalls: recorded(front.falls),
    frontRises: recorded(front.rises),
    rearFalls: recorded(rear.falls),
    rearRises: recorded(rear.rises),
  };
}

/** Whether the cell makes up 90 % of the reading. Element temperature in closed form; heating begins with the engine. */
function isAwake(history: History, sensor: SensorSpec): (i: number) => boolean {
  const begin = history.engineSpeed.findIndex((speed) => speed > 300);
  return (i) => {
    if (begin < 0 || i < begin) return false;
    const gone = Math.exp(-((i - begin) * history.step) / sensor.warmUp);
    return awakeShare(sensor, sensor.hotTemperature + (sensor.coldTemperature - sensor.hotTemperature) * gone) > 0.9;
  };
}

/** Crossings of 0.45 V on the straight line between two steps, s of the drive. */
export function crossings(voltage: Float64Array, step: number): { falls: number[]; rises: number[] } {
  const falls: number[] = [];
  const rises: number[] = [];
  for (let i = 1; i < voltage.length; i++) {
    const [before, now] = [voltage[i - 1]! - 0.45, voltage[i]! - 0.45];
    if (before > 0 === now > 0) continue;
    (before > 0 ? falls : rises).push((i - 1 + before / (before - now)) * step);
  }
  return { falls, rises };
}

interface Cut {
  /** Steps: release of the throttle, cut from, to. */
  readonly released: number;
  readonly from: number;
  readonly to: number;
}

function cuts(history: History): Cut[] {
  const starts = phaseStarts(history.car.drive);
  const found: Cut[] = [];
  for (let i = 1; i < history.count; i++) {
    if (!history.cut[i] || history.cut[i - 1]) continue;
    const to = history.cut.indexOf(0, i);
    const released = Math.round(starts[history.phase[i]!]! / history.step);
    found.push({ released, from: i, to: to < 0 ? history.count : to });
  }
  return found;
}

function liftOff(
  history: History,
  cut: Cut,
  falls: { front: number[]; rear: number[] },
  rounded: (seconds: number) => number,
): TrueLiftOff {
  const { step } = history;
  // Gas of the cut's end is still on its way for a while after fuel has returned.
  const [from, until] = [cut.from * step, cut.to * step + 0.25];
  const frontFall = history.frontVoltage[cut.from]! > 0.5 ? within(falls.front, from, until) : null;
  const rearFall =
    frontFall === null || history.rearVoltage[cut.from]! < 0.5 ? null : within(falls.rear, frontFall, until);
  const both = frontFall !== null && rearFall !== null;
  const span: [number, number] = both ? [frontFall, rearFall] : [from, cut.to * step];
  const passed = oxygenInAir * integral(history.airFlow, step, span);
  return {
    at: rounded(cut.released * step),
    cutFrom: rounded(from),
    cutTo: rounded(cut.to * step),
    frontFall: frontFall === null ? null : rounded(frontFall),
    rearFall: rearFall === null ? null : rounded(rearFall),
    delay: both ? Math.round((rearFall - frontFall) * 1e6) / 1e6 : null,
    oxygenPassed: both ? Math.round(passed * 1e6) / 1e6 : null,
    storedBefore: Math.round(history.stored[cut.from]! * 1e6) / 1e6,
    storedAfter: Math.round(history.stored[Math.min(history.count - 1, Math.round(span[1] / step))]! * 1e6) / 1e6,
    airFlow: Math.round((passed / oxygenInAir / Math.max(step, span[1] - span[0])) * 1e3) / 1e3,
    engineSpeed: Math.round(history.engineSpeed[Math.round(span[0] / step)]!),
  };
}

/** The first of rising `times` in [from, to]; null: none. */
function within(times: number[], from: number, to: number): number | null {
  return times.find((t) => t >= from && t <= to) ?? null;
}

/** Integral over [from, to] in s of values that stand at whole steps, straight lines between them. */
export function integral(values: Float64Array, step: number, [from, to]: [number, number]): number {
  const at = (seconds: number) => {
    const place = Math.min(values.length - 1, Math.max(0, seconds / step));
    const i = Math.min(values.length - 2, Math.floor(place));
    return values[i]! + (values[i + 1]! - values[i]!) * (place - i);
  };
  let sum = 0;
  for (let t = from; t < to; ) {
    const next = Math.min(to, (Math.floor(t / step + 1e-9) + 1) * step);
    sum += ((at(t) + at(next)) / 2) * (next - t);
    t = next;
  }
  return sum;
}

function stretches(
  history: History,
  rounded: (seconds: number) => number,
): { kind: StretchKind; from: number; to: number }[] {
  const starts = phaseStarts(history.car.drive);
  const list: { kind: StretchKind; from: number; to: number }[] = [];
  history.car.drive.forEach((phase, p) => {
    const last = list.at(-1);
    if (last?.kind === phase.kind) last.to = rounded(starts[p + 1]!);
    else list.push({ kind: phase.kind, from: rounded(starts[p]!), to: rounded(starts[p + 1]!) });
  });
  return list.filter(({ to }) => to > 0).map((one) => ({ ...one, from: Math.max(0, one.from) }));
}
