// The JSON object that scripts rely on. Keys may be added; none is taken away or changes its meaning.

import type { Bank, Capture, Channel } from "../capture/model/capture.ts";
import { warningsOf } from "../exhaust/findings/warnings.ts";
import type { Analysis } from "../exhaust/terms/analysis.ts";
import { measured, notResolvable, type Reading } from "../signal/numbers/reading.ts";
import { countOf, timeAt } from "../signal/series/series.ts";
import { describeTimeBase } from "../signal/stamps/time-base.ts";

/** Plain data; every number in it is finite or null. */
export function answerOf(capture: Capture, analysis: Analysis, others: readonly Analysis[] = []) {
  const { bank, sensors, stretches, whole, liftOffs, liftOff, findings, ...more } = analysis;
  return {
    capture: {
      name: capture.name,
      format: capture.format,
      startedAt: capture.startedAt,
      duration: durationOf(capture),
      channels: capture.channels.map(aboutChannel),
      remarks: remarksOn(capture, bank, others.length > 0),
    },
    bank,
    sensors,
    stretches,
    whole,
    liftOffs,
    liftOff,
    findings,
    ...more,
    ...(others.length > 0 ? { otherBanks: others } : {}),
  };
}

/** What was dropped, guessed or repaired, and what looks wrong with the recording. */
function remarksOn(capture: Capture, bank: Bank, isOtherJudged: boolean): string[] {
  const told = [...capture.remarks, ...warningsOf(capture, bank)].map(({ text, where, count }) =>
    [where, text, count === undefined ? null : `(${count})`].filter(Boolean).join(" "),
  );
  return isOtherJudged ? told : [...told, ...otherBank(capture, bank)];
}

/** Banks are judged apart: the one that was not measured is named. */
function otherBank({ channels }: Capture, bank: Bank): string[] {
  const other: Bank = bank === 1 ? 2 : 1;
  const isThere = channels.some((one) => one.bank === other && one.role === "rear-o2");
  return isThere ? [`bank ${other} was recorded as well, and is judged apart: --bank ${other}`] : [];
}

function aboutChannel({ name, role, unit, bank, polled, series }: Channel) {
  const isEmpty = !series.samples.some((value) => !Number.isNaN(value));
  const samples = isEmpty ? 0 : countOf(series.time);
  const rate = isEmpty ? notResolvable("Hz", "The channel holds no value.") : rateOf(series);
  return { name, role, unit, bank, samples, rate, polled };
}

const rateOf = (series: Channel["series"]): Reading => describeTimeBase(series).rate;

/** From the first sample to the last, of whichever channel. */
export function durationOf(capture: Capture): Reading {
  const filled = capture.channels.filter(({ series }) => countOf(series.time) > 0);
  if (filled.length === 0) return notResolvable("s", "The recording holds no sample.");
  const from = Math.min(...filled.map(({ series }) => timeAt(series.time, 0)));
  const to = Math.max(...filled.map(({ series }) => timeAt(series.time, countOf(series.time) - 1)));
  return measured(to - from, [to - from, to - from], "s");
}
