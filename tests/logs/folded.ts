// A sensor that switches at one rate, asked at another: what looks slow may be fast.

import type { Capture } from "../../src/capture/model/capture.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import type { Reading } from "../../src/signal/numbers/reading.ts";
import { capture, rows } from "../exhaust/make.ts";
import { type Random, random } from "../reference/recorders.ts";

export interface Folded {
  readonly capture: Capture;
  /** True switching frequency, Hz; true time from 0.6 to 0.3 V and back, s; true swing, V. */
  readonly frequency: number;
  readonly rate: number;
  readonly edge: number;
  readonly swing: number;
}

/** Every third pair lies within 3 % of a whole multiple of the rows' rate. */
export function someFolded(next: Random, number: number): Folded {
  const rate = next.between(0.5, 10);
  const isNear = number % 3 === 0;
  const whole = Math.max(1, Math.floor(next.uniform() * (4.8 / rate)));
  const near = whole * rate * (1 + 0.06 * (next.uniform() - 0.5) * next.uniform());
  const frequency = isNear && near < 4.8 ? near : next.between(0.3, 4.8);
  // First-order approach to 0.1 and 0.85 V in turn; tau small against the half-cycle.
  const tau = Math.min(0.06, 0.08 / frequency);
  const [low, high] = [0.1, 0.85];
  const front = (t: number) => {
    const phase = (((t * frequency) % 1) + 1) % 1;
    const since = (phase < 0.5 ? phase : phase - 0.5) / frequency;
    const left = (high - low) * Math.exp(-since / tau);
    return phase < 0.5 ? high - left : low + left;
  };
  const follows = number % 2 === 0;
  const rear = (t: number) => (follows ? 0.1 + 0.9 * (front(t - 0.1) - 0.1) : 0.68 + 0.02 * Math.sin(t / 9));
  const count = Math.round(240 * rate);
  const stamps = Array.from({ length: count }, (_, i) => i / rate);
  const doubt = { early: 1 / rate, late: 0 };
  const at = (value: (t: number) => number) => stamps.map((t) => Math.round(200 * value(t)) / 200);
  const made = capture(
    rows("front-o2", stamps, at(front), doubt),
    rows("rear-o2", stamps, at(rear), doubt),
    rows(
      "engine-speed",
      stamps,
      at((t) => 2200 + 20 * Math.sin(t / 3)),
      doubt,
    ),
    rows(
      "throttle",
      stamps,
      at((t) => 18 + Math.sin(t / 5)),
      doubt,
    ),
    rows(
      "coolant-temp",
      stamps,
      at(() => 90),
      doubt,
    ),
    rows(
      "short-trim",
      stamps,
      at((t) => 1.5 * Math.sin(t / 2)),
      doubt,
    ),
    rows(
      "long-trim",
      stamps,
      at(() => 1.5),
      doubt,
    ),
  );
  // tau ln of the levels' distances from where the course ends.
  const edge = tau * Math.log((0.6 - low) / (0.3 - low));
  return { capture: made, frequency, rate, edge, swing: high - low };
}

export interface FoldedTrial {
  readonly isNear: boolean;
  /** A reading of the front called measured, though the truth lies outside its bounds. */
  readonly isFalse: boolean;
  /** Findings that point to something and are not true of the pair. */
  readonly accused: readonly string[];
}

export function foldedTrial(k: number): FoldedTrial {
  const { capture: made, frequency, rate, edge, swing } = someFolded(random(300 + k), k);
  const { sensors, stretches, findings } = analyse(made, { bank: 1 });
  const front = sensors.front!;
  const health = stretches.flatMap((one) => one.front ?? []);
  // What is true may be said: a rear that follows, and a cycle of more than 3 s.
  const isTrue = (id: string) => (id === "catalyst" && k % 2 === 0) || (id === "front-sensor" && frequency < 1 / 3);
  const accused = findings.filter(({ id, verdict }) => verdict === "points-to" && id !== "recording" && !isTrue(id));
  return {
    isNear: k % 3 === 0,
    isFalse:
      misses(front.frequency, frequency) ||
      misses(front.richToLean, edge) ||
      misses(front.leanToRich, edge) ||
      misses(front.amplitude, swing) ||
      health.some(
        ({ period, betweenTransitions }) =>
          misses(period, 1 / frequency) || misses(betweenTransitions, 0.5 / frequency),
      ),
    accused: accused.map(({ statement }) => `${frequency} Hz at ${rate} rows/s: ${statement}`),
  };
}

const misses = ({ grade, low, high }: Reading, truth: number): boolean =>
  grade !== "not-resolvable" && !((low ?? -Infinity) <= truth * 1.0001 && truth * 0.9999 <= (high ?? Infinity));
