// What all recordings of the job hold together, for the recording guide. Each is analysed once, when it is first needed.

import { type Accessor, createEffect, createSignal } from "solid-js";
import type { CaptureSummary, WholeReadings } from "../../../workers/protocol.ts";
import type { Recorded } from "../../exhaust/guide.ts";
import type { CaptureRecord } from "../../job/job.ts";
import type { Ground } from "./ground.ts";

export interface RecordedState {
  /** What is known so far. */
  readonly all: Accessor<readonly Recorded[]>;
  /** Analyses the job's other recordings too. */
  complete(): Promise<void>;
}

export function createRecorded({ service, desk, captures, captureId, readings, summary }: Ground): RecordedState {
  const [known, setKnown] = createSignal<Readonly<Record<string, Recorded>>>({});
  const learn = (id: string, analysis: WholeReadings, capture: CaptureSummary) =>
    setKnown((all) => ({ ...all, [id]: { analysis, rearRate: rearRateOf(analysis, capture) } }));
  createEffect(() => {
    const [id, analysis, capture] = [captureId(), readings.whole(), summary()];
    if (id && analysis && capture) learn(id, analysis, capture);
  });
  const analyse = async ({ id, choices, bench }: CaptureRecord) => {
    const again = captures.summary(id) ? null : await service.reopen(id, choices);
    if (again && !again.ok) return;
    const corrected = await service.correct(id, bench.channels, bench.bank);
    const { liftOffEdits: edits, stretchEdits: stretches = [] } = bench;
    const whole = await service.whole(id, { edits, stretches, limits: desk.job().limits ?? {} });
    if (corrected.ok && whole.ok) learn(id, whole.value, corrected.value);
  };
  return {
    all: () => desk.job().captures.flatMap(({ id }) => known()[id] ?? []),
    async complete() {
      for (const record of desk.job().captures) {
        if (record.id !== captureId() && !known()[record.id]) await analyse(record);
      }
    },
  };
}

function rearRateOf({ bank }: WholeReadings, { channels }: CaptureSummary): number | null {
  return channels.find((c) => c.role === "rear-o2" && c.bank === bank)?.rate.value ?? null;
}
