// The engine the capture worker runs. Large spans are measured in threads of their own, one for spans, one for the whole.

import { proxy } from "comlink";
import type { Capture } from "../../src/capture/model/capture.ts";
import { readCapture } from "../../src/capture/readers.ts";
import { measurePair } from "../../src/exhaust/activity/pair.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import { warningsOf } from "../../src/exhaust/findings/warnings.ts";
import type { Span } from "../../src/exhaust/terms/analysis.ts";
import { isJudged, isSensor } from "../../src/exhaust/terms/channels.ts";
import { limitsInForce } from "../../src/exhaust/terms/limits.ts";
import { type Outcome, ProblemError } from "../../src/problem.ts";
import { firstFrom } from "../drawing/places.ts";
import type { Engine } from "../held/engine.ts";
import { MeasuringThread } from "../measuring/measuring.ts";
import { partOf } from "../measuring/progress.ts";
import { nameOf } from "../naming/naming.ts";
import type { SpanReadings } from "../protocol.ts";
import { captureStore } from "../store/capture-store.ts";

/** Up to this many samples are measured at once, in some tenths of a second. */
const measuredAtOnce = 400_000;

/** Share of the time that samples take on their way to the thread. */
const sending = 0.05;

const spans = new MeasuringThread();
const wholes = new MeasuringThread();

export const engine: Engine = {
  read: readCapture,
  nameOf,
  warningsOf,
  measure(capture, bank, span, { limits, onProgress }) {
    const sensors = { ...capture, channels: capture.channels.filter(isSensor) };
    if (samplesIn(sensors, span) <= measuredAtOnce) return measurePair(sensors, bank, span, limitsInForce(limits));
    const rule = { bank, span, limits };
    const onMeasured = partOf(onProgress, sending, 1);
    return spans.run(
      async (held, send) => held.measure(await send(sensors), rule, proxy(onMeasured)),
      partOf(onProgress, 0, sending),
    );
  },
  async measureStored(stored, bank, span, { limits, onProgress }) {
    const rule = { bank, span, limits };
    const outcome: Outcome<SpanReadings> = await spans.run(async (held) =>
      held.measureStored(stored, rule, proxy(onProgress)),
    );
    if (!outcome.ok) throw new ProblemError(outcome.problem);
    return outcome.value;
  },
  async whole(capture, bank, choices, onProgress) {
    if (samplesIn(capture) <= measuredAtOnce) return analyse(capture, { ...choices, bank });
    const known = { ...capture, channels: capture.channels.filter(isJudged) };
    try {
      const onMeasured = partOf(onProgress, sending, 1);
      return await wholes.run(
        async (held, send) => held.whole(await send(known), bank, choices, proxy(onMeasured)),
        partOf(onProgress, 0, sending),
      );
    } finally {
      wholes.rest();
    }
  },
  cancelMeasuring(what) {
    (what === "span" ? spans : wholes).cancel();
  },
  store: captureStore,
};

function samplesIn({ channels }: Capture, span: Span = { from: -Infinity, to: Infinity }): number {
  const counts = channels.map(({ series: { time } }) => firstFrom(time, span.to) - firstFrom(time, span.from));
  return counts.reduce((sum, count) => sum + count, 0);
}
