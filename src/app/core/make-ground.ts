// Puts together what all subjects are built on.

import { type Accessor, createEffect, createMemo, createSignal, on } from "solid-js";
import type { CaptureService, CaptureSummary, ChannelSummary, WholeChoices } from "../../../workers/protocol.ts";
import type { Bank } from "../../capture/model/capture.ts";
import type { Span, StretchEdit } from "../../exhaust/terms/analysis.ts";
import { visibleLanes } from "../../job/edits/lanes.ts";
import { lookAt } from "../../job/edits/make.ts";
import { evidenceOf } from "../../job/edits/paper-edits.ts";
import { frameConditionsOf } from "../../job/freeze-frame/conditions.ts";
import type { Job } from "../../job/record/job.ts";
import { handChecksOf } from "../../job/ruled-out/ruled-out.ts";
import type { JobStore } from "../../job/storage/store.ts";
import { applyCorrections } from "./apply-corrections.ts";
import { type Bench, createBench } from "./bench.ts";
import { createCaptures } from "./captures.ts";
import { type Companions, createCompanions } from "./companions.ts";
import type { Ground } from "./ground.ts";
import { createJobDesk, type JobDesk } from "./job-desk.ts";
import { createNotices } from "./notices.ts";
import { createReadings } from "./readings.ts";
import { createShown } from "./shown.ts";
import { createTraces } from "./traces.ts";
import { createView, type ViewState } from "./view.ts";

export function createGround(service: CaptureService, store: JobStore): Ground {
  const notices = createNotices();
  const desk = createJobDesk(store, notices);
  const captures = createCaptures(service);
  const [captureId, chooseCapture] = createSignal<string | null>(null);
  const bench = createBench(desk, captureId);
  const summary = createMemo(() => {
    const id = captureId();
    return id && bench.record() ? captures.summary(id) : null;
  });
  const companions = createCompanions({ service, desk, captures, bench, summary });
  const view = createView(captureId, companions.whole);
  const [span, setSpan] = createSignal<Span | null>(null);
  createEffect(on(captureId, () => setSpan(null), { defer: true }));
  createEffect(
    on(captureId, (id) => {
      if (id) desk.change((job) => lookAt(job, id));
    }),
  );
  const drawn = createDrawn({ bench, summary, companions, view });
  const isDrawn = () => drawn.traces.isDrawn() && drawn.overview.isDrawn();
  const wanted = createChoices(bench, desk);
  const readings = createReadings(service, summary, () => span() ?? view.view(), wanted, isDrawn);
  const shown = createShown(view, companions.whole, readings.inSpan);
  const made = { service, notices, desk, captures, bench, summary, captureId, chooseCapture, companions };
  const ground = { ...made, view, span, setSpan, ...drawn, readings, shown };
  applyCorrections(ground);
  return ground;
}

interface OnBench {
  readonly bench: Bench;
  readonly summary: Accessor<CaptureSummary | null>;
  readonly companions: Companions;
  readonly view: ViewState;
}

/** What the lanes draw, and the overview: the sensors of the bank in question, else the first channel. */
function createDrawn({ bench, summary, companions, view }: OnBench): Pick<Ground, "traces" | "overview"> {
  const { whole, service } = companions;
  const shownIds = createMemo(() => {
    const there = new Set([summary()?.channels, ...companions.list().map(({ channels }) => channels)].flatMap(idsOf));
    return visibleLanes(bench.state()).flatMap((lane) => lane.channelIds.filter((id) => there.has(id)));
  });
  const sensorIds = createMemo(() => {
    const sensors = (summary()?.channels ?? []).filter((c) => c.role === "front-o2" || c.role === "rear-o2");
    return sensors.filter((c) => c.bank === bench.state().bank).map((c) => c.id);
  });
  const overviewIds = createMemo(() => (sensorIds().length > 0 ? sensorIds() : shownIds().slice(0, 1)));
  return {
    traces: createTraces(service.window, summary, shownIds, view.view),
    overview: createTraces(service.window, summary, overviewIds, () => whole() ?? { from: 0, to: 1 }),
  };
}

const idsOf = (channels: readonly ChannelSummary[] = []) => channels.map(({ id }) => id);

/** What the hand and the job say about the measuring of the whole. */
function createChoices(bench: Bench, desk: JobDesk): Accessor<WholeChoices> {
  const edits = createMemo(() => bench.state().liftOffEdits);
  const stretches = createMemo(() => bench.state().stretchEdits ?? noEdits);
  const limits = createMemo(() => desk.job().limits);
  const pipe = createMemo(() => desk.job().pipe);
  const said = createMemo(() => saidOnPaper(desk.job(), bench.state().bank), {}, { equals: sameText });
  return createMemo(() => {
    const [limitsNow, pipeNow] = [limits(), pipe()];
    const told = { ...(limitsNow ? { limits: limitsNow } : {}), ...(pipeNow ? { pipe: pipeNow } : {}) };
    return { edits: edits(), stretches: stretches(), ...told, ...said() };
  });
}

/** The freeze frame as conditions, and what was checked by hand: typing elsewhere on paper measures nothing anew. */
function saidOnPaper(job: Job, bank: Bank): Pick<WholeChoices, "frame" | "byHand"> {
  const { frame } = evidenceOf(job, "before");
  const byHand = handChecksOf(job.ruledOut ?? []);
  return {
    ...(frame ? { frame: frameConditionsOf(frame, bank) } : {}),
    ...(Object.keys(byHand).length > 0 ? { byHand } : {}),
  };
}

const sameText = (one: object, other: object): boolean => JSON.stringify(one) === JSON.stringify(other);

const noEdits: readonly StretchEdit[] = [];
