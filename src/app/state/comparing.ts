// The suspect on the bench against a reference: which, how it lies under it, and what differs.

import { type Accessor, batch, createEffect, createMemo, createSignal, on } from "solid-js";
import type { ChannelSummary, ChannelWindow } from "../../../workers/protocol.ts";
import type { Span } from "../../exhaust/analysis.ts";
import { compareRecordings } from "../../exhaust/compare.ts";
import type { Comparable, CompareChoices, Comparison, MatchingPart } from "../../exhaust/comparison.ts";
import { type Shift, shiftByHand } from "../../exhaust/line-up.ts";
import type { Shelf } from "../../job/shelf.ts";
import type { LaneLook, Readout, TraceWindow } from "../../plot/types.ts";
import { createBand, nameOf, type UsualBand } from "../compare/band.ts";
import { type BeforeAfter, createBeforeAfter } from "../compare/before-after.ts";
import { differenceLine } from "../compare/difference-line.ts";
import {
  counterpart,
  differenceId,
  laidAt,
  type PictureSettings,
  referenceId,
  withReference,
} from "../compare/lay-under.ts";
import { type Choice, choiceOf, fetchReference, keyOf, type Reference } from "../compare/reference.ts";
import { liftOffWay, type Way, waysOf } from "../compare/ways.ts";
import type { Ground } from "./ground.ts";
import { createLatest } from "./latest.ts";
import { createTraces } from "./traces.ts";

export interface Comparing {
  readonly shelf: Shelf;
  readonly reference: Accessor<Reference | null>;
  /** Name of the reference on its way. */
  readonly fetching: Accessor<string | null>;
  start(choice: Choice): Promise<void>;
  end(): void;
  /** The recording on the bench; null until it is measured. */
  readonly suspect: Accessor<Comparable | null>;
  /** Null until both are measured. */
  readonly comparison: Accessor<Comparison | null>;
  /** Null unless two recordings of the job are compared. */
  readonly beforeAfter: Accessor<BeforeAfter | null>;
  readonly choices: Accessor<CompareChoices>;
  choose(choices: CompareChoices): void;
  /** Compares the parts that match, lines the first of them up and shows it. */
  take(part: MatchingPart): Promise<void>;
  readonly ways: Accessor<readonly Way[]>;
  readonly shift: Accessor<Shift | null>;
  lineUp(way: Way): Promise<void>;
  shiftTo(shift: Shift): void;
  readonly settings: Accessor<PictureSettings>;
  set(change: Partial<PictureSettings>): void;
  readonly band: UsualBand;
  /** The bench's lanes, windows and readouts with the reference among them. */
  lanes(lanes: readonly LaneLook[]): readonly LaneLook[];
  readonly windows: Accessor<ReadonlyMap<string, TraceWindow>>;
  readonly readouts: Accessor<readonly Readout[]>;
  setWidth(devicePixels: number): void;
  /** The difference of the rears where it is drawn, from windows as they stand. */
  differenceOf(windows: readonly TraceWindow[]): readonly ChannelWindow[];
  /** The reference's windows over a span of the suspect's time. */
  windowsOver(span: Span, width: number): Promise<readonly ChannelWindow[]>;
}

const plain: PictureSettings = { place: "behind", scale: "common", difference: false };
export interface Own {
  readonly windows: Accessor<ReadonlyMap<string, ChannelWindow>>;
  readonly readouts: Accessor<readonly Readout[]>;
}

export function createComparing(ground: Ground, own: Own, shelf: Shelf): Comparing {
  const { service, desk, bench, summary, view, readings, notices, captureId } = ground;
  const [reference, setReference] = createSignal<Reference | null>(null);
  const [fetching, setFetching] = createSignal<string | null>(null);
  const [settings, setSettings] = createSignal(plain);
  const [choices, choose] = createSignal<CompareChoices>({});
  const [shift, setShift] = createSignal<Shift | null>(null);
  const limits = createMemo(() => desk.job().limits ?? {});
  const clear = () =>
    batch(() => {
      setReference(null);
      choose({});
      setShift(null);
    });

  const suspectAsk = createMemo(() => {
    const [capture, whole] = [summary(), readings.whole()];
    return reference() && capture && whole ? { id: capture.id, whole, limits: limits() } : null;
  });
  const measured = createLatest(suspectAsk, (ask) => service.comparable(ask.id, ask.whole, ask.limits), {
    about: ({ id }) => id,
  });
  const suspect = createMemo(() => {
    const outcome = measured.value();
    return outcome?.ok ? outcome.value : null;
  });
  const comparison = createMemo(() => {
    const [mine, theirs] = [suspect(), reference()?.comparable];
    return mine && theirs ? compareRecordings(mine, theirs, choices(), limits()) : null;
  });
  const ways = createMemo(() => {
    const [mine, theirs, capture] = [suspect(), reference(), summary()];
    if (!mine || !theirs || !capture) return [];
    const shown = view.view;
    return waysOf({
      service,
      suspect: { comparable: mine, summary: capture },
      reference: theirs,
      middle: () => (shown().from + shown().to) / 2,
      mark: () => shown().from,
      switchLevel: () => desk.limits().switchLevel,
    });
  });
  const lineUp = async (way: Way) => {
    const outcome = await way.find(shift()?.shift.value ?? 0);
    if (!outcome.ok) return notices.show(outcome.problem);
    if (outcome.value.shift.value === null) return notices.say(outcome.value.shift.because ?? "No shift can be told.");
    setShift(outcome.value);
  };
  /** The first way is taken as soon as both are measured, and the first lift-off shown; failing that, both from their starts. */
  createEffect(
    on(ways, async (all) => {
      if (shift() || !suspect() || !reference()) return;
      if (all[0]) await lineUp(all[0]);
      if (!shift()) setShift(shiftByHand(0, 0));
      const [first] = suspect()?.liftOffs ?? [];
      if (first) view.show(about(first.at));
    }),
  );

  const by = () => shift()?.shift.value ?? 0;
  const counterparts = createMemo((): ReadonlyMap<string, ChannelSummary> => {
    const [capture, theirs] = [summary(), reference()];
    if (!capture || !theirs) return new Map();
    const banks = { suspect: bench.state().bank, reference: theirs.comparable.bank };
    return new Map(
      capture.channels.flatMap((channel) => {
        const other = counterpart(channel, theirs.summary.channels, banks);
        return other ? [[channel.id, other] as const] : [];
      }),
    );
  });
  const ids = createMemo(() => [...new Set([...counterparts().values()].map(({ id }) => id))]);
  const traces = createTraces(
    (request) => service.window(request),
    () => reference()?.summary ?? null,
    ids,
    () => ({ from: view.view().from - by(), to: view.view().to - by() }),
  );
  const laid = createMemo(() => new Map(laidAt([...traces.windows().values()], by()).map((w) => [w.channelId, w])));
  const rears = createMemo(() => {
    const rear = summary()?.channels.find((c) => c.role === "rear-o2" && c.bank === bench.state().bank);
    const other = rear && counterparts().get(rear.id);
    return rear && other ? { mine: rear.id, theirs: referenceId(other.id) } : null;
  });

  const differenceOf = (windows: readonly TraceWindow[]): readonly ChannelWindow[] => {
    const find = (id: string | undefined) => windows.find(({ channelId }) => channelId === id);
    const [mine, theirs] = [find(rears()?.mine), find(rears()?.theirs)];
    if (!settings().difference || !mine || !theirs) return [];
    return [{ channelId: differenceId, ...differenceLine(mine, theirs) }];
  };
  const known = createMemo((): ReadonlyMap<string, TraceWindow> => {
    if (!reference()) return own.windows();
    const all = [...own.windows().values(), ...laid().values()];
    return new Map([...all, ...differenceOf(all)].map((window) => [window.channelId, window]));
  });
  const band = createBand(ground, { shelf, reference, at: () => suspect()?.liftOffs ?? [] });
  const times = createMemo(() => own.readouts().map(({ time }) => time));
  const valuesAsk = createMemo(() => {
    const theirs = reference();
    return theirs && times().length > 0 ? { id: theirs.summary.id, ids: ids(), times: times(), by: by() } : null;
  });
  const values = createLatest(valuesAsk, async (ask) =>
    Promise.all(
      ask.times.map(async (time) => ({ time, values: await service.valuesAt(ask.id, ask.ids, time - ask.by) })),
    ),
  );

  /** What the bench was compared with when the page was last open. */
  createEffect(
    on([captureId, summary], async ([id, capture]) => {
      const key = bench.state().compared;
      if (reference()?.key === key && id === capture?.id) return;
      if (!capture || !key) return clear();
      const kept = await shelf.list();
      const choice = choiceOf(key, kept.ok ? kept.value.traces : [], desk.job().captures);
      if (choice && captureId() === id) await fetch(choice);
    }),
  );

  async function fetch(choice: Choice): Promise<void> {
    clear();
    setFetching(nameOf(choice));
    const id = captureId();
    const outcome = await fetchReference(choice, ground);
    setFetching(null);
    if (captureId() !== id) return;
    if (outcome.ok) setReference(outcome.value);
    else notices.show(outcome.problem);
  }

  return {
    shelf,
    reference,
    fetching,
    async start(choice) {
      const key = keyOf(choice);
      await fetch(choice);
      if (reference()) bench.edit((state) => ({ ...state, compared: key }));
    },
    end() {
      clear();
      bench.edit(({ compared: _, banded: __, ...state }) => state);
    },
    suspect,
    comparison,
    beforeAfter: createBeforeAfter(ground, { suspect, reference, choices }),
    choices,
    choose,
    async take({ suspect: mine, reference: theirs }) {
      choose({ suspect: mine, reference: theirs });
      const way = ways().find(({ id }) => id === liftOffWay(mine[0]!, theirs[0]!));
      if (way) await lineUp(way);
      const first = suspect()?.liftOffs.find(({ id }) => id === mine[0]);
      if (first) view.show(about(first.at));
    },
    ways,
    shift,
    lineUp,
    shiftTo: setShift,
    settings,
    set: (change) => setSettings({ ...settings(), ...change }),
    band,
    lanes(lanes) {
      const theirs = reference();
      if (!theirs || !shift()) return lanes;
      const rule = { settings: settings(), name: theirs.name, counterparts: counterparts(), view: view.view() };
      return withReference(lanes, { ...rule, windows: known(), envelopes: band.envelopes() });
    },
    windows: known,
    readouts: createMemo(() => {
      if (!reference()) return own.readouts();
      const theirs = values.value() ?? [];
      return own.readouts().map((one) => ({ ...one, values: [...one.values, ...valuesAt(one.time, theirs)] }));
    }),
    setWidth: traces.setWidth,
    differenceOf,
    async windowsOver(span, width) {
      const theirs = reference();
      if (!theirs || !shift()) return [];
      const shifted = { from: span.from - by(), to: span.to - by() };
      const found = await service.window({ captureId: theirs.summary.id, channelIds: ids(), span: shifted, width });
      return laidAt(found, by());
    },
  };
}

/** What is shown of a lift-off, s. */
const about = (at: number): Span => ({ from: at - 2, to: at + 6 });

const valuesAt = (time: number, all: readonly Readout[]) =>
  (all.find((one) => one.time === time)?.values ?? []).map((v) => ({ ...v, channelId: referenceId(v.channelId) }));
