// How much of the rear's movement is at the front's own frequency, cycle by cycle.

import type { Crossings } from "../signal/crossings.ts";
import { indexAt, type Series, timeAt } from "../signal/series.ts";
import type { Seconds } from "../signal/units.ts";

/**
 * Energy of the first harmonic over each full cycle of the front, for one channel.
 *
 * @param crossings  of the front; a cycle runs from one rise to the next in the same gap-free run.
 * @returns one number per cycle, unit squared; NaN where fewer than four samples of the channel lie in a cycle.
 *
 * Follows a frequency that wanders, where a fixed band would smear it. A straight drift through the cycle is taken off
 * first. Form: the Fourier coefficient at one cycle, as in order tracking.
 */
export function cycleEnergies(series: Series, crossings: Crossings): number[] {
  const energies: number[] = [];
  let before = -1;
  for (let k = 0; k < crossings.times.length; k++) {
    if (crossings.rising[k] !== 1) continue;
    if (before >= 0 && crossings.runs[before] === crossings.runs[k]) {
      energies.push(energyOver(series, crossings.times[before]!, crossings.times[k]!));
    }
    before = k;
  }
  return energies;
}

function energyOver(series: Series, from: Seconds, to: Seconds): number {
  const first = indexAt(series.time, from);
  const end = indexAt(series.time, to);
  const n = end - first;
  if (n < 4) return NaN;
  const { samples } = series;
  const slope = (samples[end - 1]! - samples[first]!) / (timeAt(series.time, end - 1) - timeAt(series.time, first));
  let [real, imaginary] = [0, 0];
  for (let i = first; i < end; i++) {
    const phase = (2 * Math.PI * (timeAt(series.time, i) - from)) / (to - from);
    const value = samples[i]! - samples[first]! - slope * (timeAt(series.time, i) - timeAt(series.time, first));
    real += value * Math.cos(phase);
    imaginary += value * Math.sin(phase);
  }
  return (real * real + imaginary * imaginary) / (n * n);
}
