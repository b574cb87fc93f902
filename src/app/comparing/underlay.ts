// The reference as it lies among the bench's lanes: its windows, its values under the cursor, and the difference of the rears.

import { type Accessor, createMemo } from "solid-js";
import type { ChannelSummary, ChannelWindow } from "../../../workers/protocol.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import type { Envelope, LaneLook, Readout, TraceWindow } from "../../plot/stage/types.ts";
import type { Ground } from "../core/ground.ts";
import { createLatest } from "../core/latest.ts";
import { createTraces } from "../core/traces.ts";
import { differenceLine } from "./difference-line.ts";
import { counterpart, differenceId, laidAt, referenceId, withReference } from "./lay-under.ts";
import type { Laying } from "./laying.ts";
import type { Reference } from "./reference.ts";

export interface Underlay {
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

export interface Own {
  readonly windows: Accessor<ReadonlyMap<string, ChannelWindow>>;
  readonly readouts: Accessor<readonly Readout[]>;
}

export interface UnderlayRule extends Pick<Laying, "shift" | "settings"> {
  readonly reference: Accessor<Reference | null>;
  readonly envelopes: Accessor<readonly Envelope[]>;
}

export function createUnderlay(ground: Ground, own: Own, rule: UnderlayRule): Underlay {
  const { service, view } = ground;
  const { reference, shift, settings, envelopes } = rule;
  const by = () => shift()?.shift.value ?? 0;
  const counterparts = createCounterparts(ground, reference);
  const ids = createMemo(() => [...new Set([...counterparts().values()].map(({ id }) => id))]);
  const traces = createTraces(
    (request) => service.window(request),
    () => reference()?.summary ?? null,
    ids,
    () => ({ from: view.view().from - by(), to: view.view().to - by() }),
  );
  const underlay = createMemo(() => new Map(laidAt([...traces.windows().values()], by()).map((w) => [w.channelId, w])));
  const differenceOf = createDifference(ground, counterparts, settings);
  const known = createMemo((): ReadonlyMap<string, TraceWindow> => {
    if (!reference()) return own.windows();
    const both = [...own.windows().values(), ...underlay().values()];
    return new Map([...both, ...differenceOf(both)].map((window) => [window.channelId, window]));
  });
  const theirValues = createTheirValues(ground, own, { reference, ids, by });

  return {
    lanes(lanes) {
      const theirs = reference();
      if (!theirs || !shift()) return lanes;
      const drawn = { settings: settings(), name: theirs.name, counterparts: counterparts(), view: view.view() };
      return withReference(lanes, { ...drawn, windows: known(), envelopes: envelopes() });
    },
    windows: known,
    readouts: createMemo(() => {
      if (!reference()) return own.readouts();
      const theirs = theirValues();
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

/** By channel id of the suspect: the reference's channel that measures the same. */
function createCounterparts({ summary, bench }: Ground, reference: Accessor<Reference | null>) {
  return createMemo((): ReadonlyMap<string, ChannelSummary> => {
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
}

function createDifference(
  { summary, bench }: Ground,
  counterparts: Accessor<ReadonlyMap<string, ChannelSummary>>,
  settings: Laying["settings"],
): Underlay["differenceOf"] {
  const rears = createMemo(() => {
    const rear = summary()?.channels.find((c) => c.role === "rear-o2" && c.bank === bench.state().bank);
    const other = rear && counterparts().get(rear.id);
    return rear && other ? { mine: rear.id, theirs: referenceId(other.id) } : null;
  });

  return (windows: readonly TraceWindow[]): readonly ChannelWindow[] => {
    const find = (id: string | undefined) => windows.find(({ channelId }) => channelId === id);
    const [mine, theirs] = [find(rears()?.mine), find(rears()?.theirs)];
    if (!settings().difference || !mine || !theirs) return [];
    return [{ channelId: differenceId, ...differenceLine(mine, theirs) }];
  };
}

interface TheirTime {
  readonly reference: Accessor<Reference | null>;
  readonly ids: Accessor<readonly string[]>;
  /** s that the reference is told later. */
  readonly by: () => number;
}

/** What the reference shows at the instants that are read out. */
function createTheirValues(
  { service }: Ground,
  own: Own,
  { reference, ids, by }: TheirTime,
): Accessor<readonly Readout[]> {
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
  return () => values.value() ?? [];
}

const valuesAt = (time: number, all: readonly Readout[]) =>
  (all.find((one) => one.time === time)?.values ?? []).map((v) => ({ ...v, channelId: referenceId(v.channelId) }));
