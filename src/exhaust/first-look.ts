// A first look at a recording of many samples: the same judgement on their means, in a small part of the time.

import type { Capture } from "../capture/model/capture.ts";
import { blockMeans } from "../signal/series/block-means.ts";
import type { Series } from "../signal/series/series.ts";
import { usualStep } from "../signal/series/usual-step.ts";
import { analyse } from "./analyse.ts";
import type { Analysis, AnalysisChoices } from "./terms/analysis.ts";
import { isJudged } from "./terms/channels.ts";
import { anew, answering } from "./terms/remembered.ts";

/** Means so many a second: enough for a lift-off, whose delays are tenths of a second. Own choice, on the fleet. */
const meansPerSecond = 25;

/** Fewer samples to a mean than this save no time that is felt. */
const leastBlock = 4;

/**
 * What the whole will most likely say, of means of neighbouring samples and without the fit of the store. Its verdicts
 * are to be shown as a first look only, and followed by the whole; `tests/exhaust/first-look.md` tells how often that differs.
 *
 * @returns null where a look at every sample takes hardly longer.
 */
export function firstLook(capture: Capture, choices: AnalysisChoices = {}): Analysis | null {
  const judged = capture.channels.filter(isJudged);
  const block = Math.floor(1 / (meansPerSecond * Math.min(...judged.map(({ series }) => usualStep(series.time)))));
  if (!(block >= leastBlock && block < Infinity)) return null;
  const channels = judged.map((channel) => ({ ...channel, series: meansOf(channel.series) }));
  return analyse({ ...capture, channels }, choices, () => {}, answering(anew, "store", null));
}

function meansOf(series: Series): Series {
  const block = Math.floor(1 / (meansPerSecond * usualStep(series.time)));
  if (!(block >= 2)) return series;
  const means = blockMeans(series, block);
  for (;;) {
    const next = means.next();
    if (next.done) return next.value;
  }
}
