// Puts together what all subjects are built on.

import { type Accessor, createEffect, createMemo, createSignal, on, onCleanup } from "solid-js";
import type { CaptureService, CaptureSummary, ChannelSummary } from "../../../workers/protocol.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import { visibleLanes } from "../../job/edits/lanes.ts";
import { lookAt } from "../../job/edits/make.ts";
import type { JobStore } from "../../job/storage/store.ts";
import { type Bench, createBench } from "./bench.ts";
import { createCaptures } from "./captures.ts";
import { type Companions, createCompanions } from "./companions.ts";
import { keepAnewWhereEmptied } from "./emptied.ts";
import type { Ground } from "./ground.ts";
import { createJobDesk, type JobDesk } from "./job-desk.ts";
import { createLatest } from "./latest.ts";
import { createNotices } from "./notices.ts";
import { createReadings } from "./readings.ts";
import { remember, remembered } from "./remembered-views.ts";
import { createShown } from "./shown.ts";
import { createSummary, saysTheSame } from "./take.ts";
import { createTraces } from "./traces.ts";
import { createUnderWay } from "./under-way.ts";
import { createView, type ViewState } from "./view.ts";
import { benchChoices } from "./whole-choices.ts";
import { createWriting } from "./writing.ts";

export function createGround(service: CaptureService, store: JobStore): Ground {
  const notices = createNotices();
  const written = createWriting();
  const desk = createJobDesk(store, notices);
  keepAnewWhereEmptied({ desk, service, notices });
  const captures = createCaptures(service);
  const [captureId, chooseCapture] = createSignal<string | null>(null);
  const bench = createBench(desk, captureId);
  const summary = createSummary({ bench, captures, captureId });
  const warnings = createWarnings(service, summary);
  const companions = createCompanions({ service, desk, captures, bench, summary });
  const memory = createMemory(desk, captureId);
  const view = createView(captureId, { whole: companions.whole, first: () => memory()?.view ?? null });
  const [span, setSpan] = createSignal<Span | null>(null);
  createEffect(on(memory, (known) => setSpan(known?.span ?? null)));
  rememberViews({ desk, captureId, view, span, isThere: () => summary() !== null });
  createEffect(
    on(captureId, (id) => {
      if (id) desk.change((job) => lookAt(job, id));
    }),
  );
  const drawn = createDrawn({ bench, summary, companions, view });
  const isDrawn = () => drawn.traces.isDrawn() && drawn.overview.isDrawn();
  const wanted = createMemo(
    () => ({ ...benchChoices(desk.job(), bench.state()), writing: written.writing() }),
    undefined,
    {
      equals: saysTheSame,
    },
  );
  const readings = createReadings(service, summary, () => span() ?? view.view(), wanted, isDrawn);
  const shown = createShown(view, companions.whole, readings.inSpan);
  const underWay = createUnderWay();
  const made = { service, notices, underWay, desk, captures, bench, summary, captureId, chooseCapture, companions };
  return { ...written, ...made, warnings, view, span, setSpan, ...drawn, readings, shown };
}

const keyOf = (desk: JobDesk, captureId: string) => `${desk.job().id} ${captureId}`;

/** Where the recording on the desk was looked at when it was last there. */
function createMemory(desk: JobDesk, captureId: Accessor<string | null>) {
  return createMemo(on(captureId, (id) => (id === null ? null : remembered(keyOf(desk, id)))));
}

interface Looked {
  readonly desk: JobDesk;
  readonly captureId: Accessor<string | null>;
  readonly view: ViewState;
  readonly span: Accessor<Span | null>;
  readonly isThere: () => boolean;
}

/** Not at every frame of a movement, but when it came to rest. */
function rememberViews({ desk, captureId, view, span, isThere }: Looked): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  createEffect(
    on([captureId, view.view, span], ([id, at, chosen]) => {
      clearTimeout(timer);
      if (id === null || !isThere()) return;
      const key = keyOf(desk, id);
      timer = setTimeout(() => remember(key, { view: at, span: chosen }), restMs);
    }),
  );
  onCleanup(() => clearTimeout(timer));
}

const restMs = 300;

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

function createWarnings(service: CaptureService, summary: Ground["summary"]): Ground["warnings"] {
  const ask = () => summary()?.take ?? null;
  const found = createLatest(ask, (take) => service.warnings(take), { about: ({ captureId }) => captureId });
  return () => found.value() ?? [];
}
