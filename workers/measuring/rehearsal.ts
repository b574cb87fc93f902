// A made-up recording on which a thread that has nothing to do runs through its work, so that the browser has translated the code
// before a file comes: code that runs for the first time takes most of the time until the first answer.

import type { Capture, Channel } from "../../src/capture/model/capture.ts";
import type { Seconds } from "../../src/signal/numbers/units.ts";

export interface MadeUp {
  /** Samples a second. */
  readonly rate: number;
  /** Its rear sensor follows the front one, or is calm. */
  readonly rear: "busy" | "calm";
}

export interface RehearsedPart extends MadeUp {
  /** All but the fit of the store, or that alone. */
  readonly work: "sensors" | "store";
}

/** One after the other; each takes a few tenths of a second, the first ones more, so that a file that comes meanwhile need not wait. */
export const rehearsal: readonly RehearsedPart[] = [
  { work: "sensors", rate: 50, rear: "busy" },
  { work: "sensors", rate: 100, rear: "calm" },
  { work: "store", rate: 100, rear: "busy" },
  { work: "sensors", rate: 250, rear: "busy" },
  { work: "sensors", rate: 500, rear: "calm" },
  { work: "store", rate: 250, rear: "calm" },
  { work: "sensors", rate: 1000, rear: "busy" },
  { work: "sensors", rate: 1000, rear: "calm" },
];

/** Ends of what is driven, s: sensors that wake up, cruise, overrun, idle, faster cruise, overrun, cruise. */
const drive = { asleep: 4, cruise: 18, overrun: 22, idle: 32, faster: 42, second: 45, end: 56 } as const;

const isCut = (t: Seconds) => (t >= drive.cruise && t < drive.overrun) || (t >= drive.faster && t < drive.second);
const isIdle = (t: Seconds) => t >= drive.overrun && t < drive.idle;
const isFaster = (t: Seconds) => t >= drive.idle && t < drive.faster;

/** From lean, -1, to rich, 1. */
const swing = (t: Seconds) => Math.tanh(5 * Math.sin(2 * Math.PI * (isIdle(t) ? 0.7 : isFaster(t) ? 1.6 : 1.1) * t));

const engineSpeed = (t: Seconds) =>
  isIdle(t) ? 800 : isCut(t) ? 1900 - 250 * ((t - drive.cruise) % 4) : (isFaster(t) ? 2900 : 2200) + 8 * Math.sin(t);
const airFlow = (t: Seconds) => (isIdle(t) ? 3 : isCut(t) ? 5 : (isFaster(t) ? 19 : 13) + 0.4 * Math.sin(t));

/** Front and rear with what a cruise, a fuel cut and an idle show. Nothing of it is ever shown to anybody. */
export function madeUp({ rate, rear: its }: MadeUp): Capture {
  const random = lowNoise();
  const even = { kind: "even", start: 0, step: 1 / rate, count: drive.end * rate } as const;
  const column = (at: (t: Seconds) => number, step: number): Float64Array =>
    Float64Array.from({ length: even.count }, (_, i) => Math.round(at(i / rate) / step) * step);
  const front = (t: Seconds) => (t < drive.asleep ? 0.45 : isCut(t) ? 0.06 : 0.45 + 0.38 * swing(t)) + random();
  const rear = (t: Seconds) => {
    if (t < drive.asleep + 3) return 0.45 + random();
    if (isCut(t - 0.9)) return 0.08 + random();
    return (its === "busy" ? 0.45 + 0.36 * swing(t - 0.2) : 0.68 + 0.04 * Math.sin(0.9 * t)) + random();
  };
  const throttle = (t: Seconds) => (isCut(t) || isIdle(t) ? 0 : isFaster(t) ? 24 : 16);
  const coolant = (t: Seconds) => Math.min(90, 66 + 3 * t);
  const channel = (id: string, name: string, role: Channel["role"], unit: string, samples: Float64Array): Channel => ({
    id,
    name,
    role,
    unit,
    fileUnit: unit,
    bank: 1,
    polled: false,
    series: { time: even, samples },
  });
  return {
    name: "made up",
    format: "made up",
    startedAt: null,
    remarks: [],
    channels: [
      channel("c1", "Front O2 sensor", "front-o2", "V", column(front, 0.005)),
      channel("c2", "Rear O2 sensor", "rear-o2", "V", column(rear, 0.005)),
      channel("c3", "Throttle", "throttle", "%", column(throttle, 0.5)),
      channel("c4", "Engine speed", "engine-speed", "1/min", column(engineSpeed, 1)),
      channel("c5", "Air flow", "air-flow", "g/s", column(airFlow, 0.1)),
      channel("c6", "Coolant temperature", "coolant-temp", "degC", column(coolant, 1)),
    ],
  };
}

/** V, some millivolts either way, the same each time. */
function lowNoise(): () => number {
  let seed = 1;
  return () => {
    seed = (seed * 48271) % 2147483647;
    return 0.008 * (seed / 2147483647 - 0.5);
  };
}
