// The suspect on the bench against a reference: which, how it lies under it, and what differs.

import { type Accessor, batch, createEffect, createMemo, createSignal, on, onCleanup } from "solid-js";
import type { ChannelSummary, ChannelWindow, WholeRequest } from "../../../workers/protocol.ts";
import { compareRecordings } from "../../exhaust/comparing/compare.ts";
import type { Comparable, Comparison } from "../../exhaust/comparing/comparison.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import type { Shelf } from "../../job/shelf/shelf.ts";
import type { LaneLook, Readout, TraceWindow } from "../../plot/stage/types.ts";
import { subject } from "../core/context.ts";
import type { Ground } from "../core/ground.ts";
import { createLatest } from "../core/latest.ts";
import { createTraces } from "../core/traces.ts";
import { benchChoices } from "../core/whole-choices.ts";
import { createBand, nameOf, type UsualBand } from "./band.ts";
import { type BeforeAfter, createBeforeAfter } from "./before-after.ts";
import { differenceLine } from "./difference-line.ts";
import { counterpart, differenceId, laidAt, referenceId, withReference } from "./lay-under.ts";
import { anew, createLaying, type Laying } from "./laying.ts";
import { type Choice, choiceOf, fetchReference, keyOf, type Reference } from "./reference.ts";

export interface Comparing extends Laying {
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

export const { Context: ComparingContext, use: useComparing } = subject<Comparing>("Comparing");

export interface Own {
  readonly windows: Accessor<ReadonlyMap<string, ChannelWindow>>;
  readonly readouts: Accessor<readonly Readout[]>;
}

/** A reference on its way. */
interface Coming {
  /** The recording it is to lie under. */
  readonly onto: string | null;
  readonly key: string;
  readonly name: string;
  readonly giving: AbortController;
}

export function createComparing(ground: Ground, own: Own, shelf: Shelf): Comparing {
  const { service, desk, bench, summary, view, readings, notices, captureId } = ground;
  const [reference, setReference] = createSignal<Reference | null>(null);
  const [coming, setComing] = createSignal<Coming | null>(null);
  const limits = createMemo(() => desk.job().limits ?? {});

  const suspectAsk = createMemo(() => {
    const [capture, isMeasured] = [summary(), readings.whole() !== null];
    const choices = benchChoices(desk.job(), bench.state());
    return reference() && capture && isMeasured ? { take: capture.take, choices } : null;
  });
  const measureSuspect = async (ask: WholeRequest, signal: AbortSignal) => {
    const outcome = await service.comparable(ask, { urgency: "beside", signal });
    return signal.aborted ? null : outcome;
  };
  const measured = createLatest(suspectAsk, measureSuspect, { about: ({ take }) => take.captureId });
  const suspect = createMemo(() => {
    const outcome = measured.value();
    return outcome?.ok ? outcome.value : null;
  });
  const laying = createLaying(ground, suspect, reference);
  const { parts, shift, settings } = laying;
  const comparison = createMemo(() => {
    const [mine, theirs] = [suspect(), reference()?.comparable];
    return mine && theirs ? compareRecordings(mine, theirs, parts(), limits()) : null;
  });

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
  const underlay = createMemo(() => new Map(laidAt([...traces.windows().values()], by()).map((w) => [w.channelId, w])));
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
    const both = [...own.windows().values(), ...underlay().values()];
    return new Map([...both, ...differenceOf(both)].map((window) => [window.channelId, window]));
  });
  const band = createBand(ground, { shelf, reference, at: () => suspect()?.liftOffs ?? [] });
  const times = createMemo(() => own.readouts().map(({ time }) => time));
  const valuesAsk = createMemo(() => {
    const theirs = reference();
    return theirs && times().length > 0 ? { take: theirs.summary.take, ids: ids(), times: times(), by: by() } : null;
  });
  const values = createLatest(valuesAsk, async (ask) =>
    Promise.all(
      ask.times.map(async (time) => ({ time, values: await service.valuesAt(ask.take, ask.ids, time - ask.by) })),
    ),
  );

  /** What the bench says it is compared with: when the page was last open, or before undo and redo. */
  const compared = createMemo(() => bench.state().compared);
  const isComing = (id: string | null, key: string) => coming()?.onto === id && coming()?.key === key;
  createEffect(
    on([captureId, summary, compared], async ([id, capture, key]) => {
      if (reference()?.key === key && id === capture?.id) return;
      setReference(null);
      if (!capture || !key || isComing(id, key)) return;
      const kept = await shelf.list();
      const choice = choiceOf(key, kept.ok ? kept.value.traces : [], desk.job().captures);
      const brought = choice && captureId() === id ? await fetch(choice) : null;
      if (brought && compared() === key) setReference(brought);
    }),
  );

  /** Gives up the one on its way, for another or none. */
  const comes = (next: Coming | null) => {
    coming()?.giving.abort();
    setComing(next);
  };
  onCleanup(() => comes(null));

  /** Null where it could not be brought, or another choice or another recording on the bench came meanwhile. */
  async function fetch(choice: Choice): Promise<Reference | null> {
    const asked: Coming = {
      onto: captureId(),
      key: keyOf(choice),
      name: nameOf(choice),
      giving: new AbortController(),
    };
    comes(asked);
    const { signal } = asked.giving;
    const outcome = await fetchReference(choice, { ...ground, signal });
    const isWanted = !signal.aborted && captureId() === asked.onto;
    setComing((now) => (now === asked ? null : now));
    if (!isWanted) return null;
    if (outcome.ok) return outcome.value;
    notices.show(outcome.problem);
    return null;
  }

  return {
    shelf,
    reference,
    fetching: () => coming()?.name ?? null,
    async start(choice) {
      const brought = await fetch(choice);
      if (!brought) return;
      batch(() => {
        bench.edit((state) => ({ ...state, compared: keyOf(choice), laid: anew(state.laid) }));
        setReference(brought);
      });
    },
    end() {
      comes(null);
      setReference(null);
      bench.edit(({ compared: _, banded: __, laid: ___, ...state }) => state);
    },
    suspect,
    comparison,
    ...laying,
    beforeAfter: createBeforeAfter(ground, { suspect, reference, parts }),
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
      const found = await service.window({ take: theirs.summary.take, channelIds: ids(), span: shifted, width });
      return laidAt(found, by());
    },
  };
}

const valuesAt = (time: number, all: readonly Readout[]) =>
  (all.find((one) => one.time === time)?.values ?? []).map((v) => ({ ...v, channelId: referenceId(v.channelId) }));
