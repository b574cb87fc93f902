// What all recordings of the job hold together, for the recording guide. Each is analysed once, when it is first needed.

import { type Accessor, createEffect, createSignal } from "solid-js";
import type { CaptureSummary, WholeReadings } from "../../../workers/protocol.ts";
import type { Recorded } from "../../exhaust/findings/guide.ts";
import type { CaptureRecord } from "../../job/record/job.ts";
import { settle } from "../../problem.ts";
import { broughtToHand, good } from "../core/at-hand.ts";
import { subject } from "../core/context.ts";
import type { Ground } from "../core/ground.ts";
import { wholeChoices } from "../core/whole-choices.ts";

export interface RecordedState {
  /** What is known so far. */
  readonly all: Accessor<readonly Recorded[]>;
  /** Analyses the job's other recordings too. */
  complete(): Promise<void>;
}

export const { Context: RecordedContext, use: useRecorded } = subject<RecordedState>("What is recorded");

export function createRecorded(ground: Ground): RecordedState {
  const { service, desk, captures, captureId, readings, summary, notices } = ground;
  const [known, setKnown] = createSignal<Readonly<Record<string, Recorded>>>({});
  const learn = (id: string, analysis: WholeReadings, capture: CaptureSummary) =>
    setKnown((all) => ({ ...all, [id]: { analysis, rearRate: rearRateOf(analysis, capture) } }));
  createEffect(() => {
    const [id, analysis, capture] = [captureId(), readings.whole(), summary()];
    if (id && analysis && capture) learn(id, analysis, capture);
  });
  const analyse = async (record: CaptureRecord) => {
    const outcome = await settle(async () => {
      const capture = good(await broughtToHand(record, captures));
      const request = { take: capture.take, choices: wholeChoices(desk.job(), record.bench) };
      learn(record.id, good(await service.whole(request, { urgency: "beside" })), capture);
    });
    if (!outcome.ok) notices.say(`${record.fileName}: ${outcome.problem.what}`);
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
