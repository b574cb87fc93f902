// Everything the screens read and call, put together once and given by context.

import { type Accessor, createContext, createEffect, createMemo, createSignal, on, useContext } from "solid-js";
import type { CaptureService, ChannelSummary, WholeChoices } from "../../../workers/protocol.ts";
import type { LiftOffEdit, Span, StretchEdit } from "../../exhaust/terms/analysis.ts";
import { visibleLanes } from "../../job/edits/lanes.ts";
import { lookAt } from "../../job/edits/make.ts";
import type { Job } from "../../job/record/job.ts";
import { makeShelf, type Shelf } from "../../job/shelf/shelf.ts";
import type { JobStore } from "../../job/storage/store.ts";
import { createBench } from "./bench.ts";
import { createCaptures } from "./captures.ts";
import { createCompanions } from "./companions.ts";
import { type Comparing, createComparing } from "./comparing.ts";
import { correctionsOf } from "./corrections.ts";
import { createDimensions, type Dimensions } from "./dimensions.ts";
import { createExhibits, type Exhibits } from "./exhibits.ts";
import type { Ground } from "./ground.ts";
import { createJobDesk } from "./job-desk.ts";
import { createLiftOffs, type LiftOffs } from "./lift-offs.ts";
import { createNotices } from "./notices.ts";
import { createOpening, type Opening } from "./opening.ts";
import { createReadings } from "./readings.ts";
import { createRecorded, type RecordedState } from "./recorded.ts";
import { createSameRun, type SameRun } from "./same-run.ts";
import { createShown } from "./shown.ts";
import { createStretches, type Stretches } from "./stretches.ts";
import { createTheme, type ThemeState } from "./theme.ts";
import { createTraces, type Traces } from "./traces.ts";
import { createView } from "./view.ts";

export interface Workbench extends Ground {
  readonly theme: ThemeState;
  readonly opening: Opening;
  /** A span chosen by hand; readings follow it instead of the view. */
  readonly span: Accessor<Span | null>;
  setSpan(span: Span | null): void;
  readonly traces: Traces;
  readonly overview: Traces;
  readonly dimensions: Dimensions;
  readonly liftOffs: LiftOffs;
  readonly stretches: Stretches;
  readonly exhibits: Exhibits;
  readonly recorded: RecordedState;
  readonly comparing: Comparing;
  readonly sameRun: SameRun;
}

export interface Givens {
  readonly service: CaptureService;
  readonly store: JobStore;
  /** Without it, the browser's own. */
  readonly shelf?: Shelf;
}

export function createWorkbench({ service, store, shelf = makeShelf() }: Givens): Workbench {
  const notices = createNotices();
  const theme = createTheme();
  const desk = createJobDesk(store, notices);
  const captures = createCaptures(service);
  const [captureId, chooseCapture] = createSignal<string | null>(null);
  const bench = createBench(desk, captureId);
  const summary = createMemo(() => {
    const id = captureId();
    return id && bench.record() ? captures.summary(id) : null;
  });
  const companions = createCompanions({ service, desk, captures, bench, summary });
  const { whole } = companions;
  const view = createView(captureId, whole);
  const [span, setSpan] = createSignal<Span | null>(null);
  createEffect(on(captureId, () => setSpan(null), { defer: true }));
  createEffect(
    on(captureId, (id) => {
      if (id) desk.change((job) => lookAt(job, id));
    }),
  );

  const shownIds = createMemo(() => {
    const there = new Set([summary()?.channels, ...companions.list().map(({ channels }) => channels)].flatMap(idsOf));
    return visibleLanes(bench.state()).flatMap((lane) => lane.channelIds.filter((id) => there.has(id)));
  });
  const sensorIds = createMemo(() => {
    const sensors = (summary()?.channels ?? []).filter((c) => c.role === "front-o2" || c.role === "rear-o2");
    return sensors.filter((c) => c.bank === bench.state().bank).map((c) => c.id);
  });
  const overviewIds = createMemo(() => (sensorIds().length > 0 ? sensorIds() : shownIds().slice(0, 1)));
  const ask = companions.service.window;
  const traces = createTraces(ask, summary, shownIds, view.view);
  const overview = createTraces(ask, summary, overviewIds, () => whole() ?? { from: 0, to: 1 });

  const edits = createMemo(() => bench.state().liftOffEdits);
  const stretchEdits = createMemo(() => bench.state().stretchEdits ?? noEdits);
  const limits = createMemo(() => desk.job().limits);
  const pipe = createMemo(() => desk.job().pipe);
  const choices = createMemo(() => wholeChoices(edits(), stretchEdits(), limits(), pipe()));
  const readings = createReadings(
    service,
    summary,
    () => span() ?? view.view(),
    choices,
    () => traces.isDrawn() && overview.isDrawn(),
  );
  const shown = createShown(view, whole, readings.inSpan);
  const base = {
    service,
    notices,
    desk,
    captures,
    bench,
    summary,
    captureId,
    chooseCapture,
    view,
    readings,
    shown,
    companions,
  };
  applyCorrections(base);
  const dimensions = createDimensions(base);
  const liftOffs = createLiftOffs(base);
  const sameRun = createSameRun({ ...base, dimensions });
  const comparing = createComparing(base, { windows: traces.windows, readouts: dimensions.readouts }, shelf);
  return {
    ...base,
    theme,
    span,
    setSpan,
    traces,
    overview,
    sameRun,
    opening: createOpening(base, sameRun.makeOffer),
    dimensions,
    liftOffs,
    stretches: createStretches(base),
    comparing,
    exhibits: createExhibits({ ...base, dimensions, liftOffs, comparing }),
    recorded: createRecorded(base),
  };
}

/** Roles, units, gains and offsets go to the worker whenever they change, undo and reload included. */
function applyCorrections({
  bench,
  captures,
  captureId,
  notices,
}: Pick<Ground, "bench" | "captures" | "captureId" | "notices">) {
  const channels = createMemo(() => bench.state().channels);
  const bank = createMemo(() => bench.state().bank);
  const read = createMemo(() => captures.readings(captureId() ?? ""));
  /** What the worker holds, as text, by capture and reading of it. */
  const inForce = new Map<string, string>();
  createEffect(
    on([captureId, channels, bank, read], async ([id, settings, judged, count]) => {
      if (!id || count === 0) return;
      const wanted = JSON.stringify([correctionsOf(settings), judged]);
      if (wanted === (inForce.get(`${id} ${count}`) ?? asRead)) return;
      inForce.set(`${id} ${count}`, wanted);
      const outcome = await captures.correct(id, correctionsOf(settings), judged);
      if (!outcome.ok) notices.show(outcome.problem);
    }),
  );
}

/** A capture that was just read: no corrections, bank 1. */
const asRead = JSON.stringify([{}, 1]);

const idsOf = (channels: readonly ChannelSummary[] = []) => channels.map(({ id }) => id);

const noEdits: readonly StretchEdit[] = [];

function wholeChoices(
  edits: readonly LiftOffEdit[],
  stretches: readonly StretchEdit[],
  limits: Job["limits"],
  pipe: Job["pipe"],
): WholeChoices {
  return { edits, stretches, ...(limits ? { limits } : {}), ...(pipe ? { pipe } : {}) };
}

export const WorkbenchContext = createContext<Workbench>();

export function useWorkbench(): Workbench {
  const workbench = useContext(WorkbenchContext);
  if (!workbench) throw new TypeError("useWorkbench must be called inside WorkbenchContext.Provider");
  return workbench;
}
