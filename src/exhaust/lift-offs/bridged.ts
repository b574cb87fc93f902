// A sensor without its single missing cells: an edge is timed between the samples that are there.

import { gapLimit, type Series, timeAt } from "../../signal/series/series.ts";

/** Two missing samples in a row leave a step of three: the longest that still joins. */
const longestHole = 3;

/**
 * The same samples without the missing ones, each with its own stamp. A hole of one or two cells then is a longer step, and an
 * edge in it lies anywhere between its ends; a longer one stays a gap.
 */
export function bridged(series: Series): Series {
  const { time, samples } = series;
  if (!samples.includes(NaN)) return series;
  const kept = Array.from(samples.keys()).filter((i) => !Number.isNaN(samples[i]!));
  const gapAbove = time.kind === "even" ? longestHole * 1.001 * time.step : gapLimit(time);
  return {
    time: {
      kind: "stamped",
      stamps: Float64Array.from(kept, (i) => timeAt(time, i)),
      gapAbove,
      ...(time.doubt ? { doubt: time.doubt } : {}),
    },
    samples: Float64Array.from(kept, (i) => samples[i]!),
  };
}
