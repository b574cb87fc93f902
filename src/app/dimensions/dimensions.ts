// Cursors and dimensions on the bench: what the plot's gestures and the panel's fields do to them.

import { type Accessor, createEffect, createMemo, createSignal, on } from "solid-js";
import type { SnapRequest } from "../../../workers/protocol.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import { channelInForce } from "../../job/edits/channels.ts";
import { shiftDoubt } from "../../job/edits/companions.ts";
import {
  changeDimension,
  cursorOf,
  type DimensionDraft,
  dimensionOf,
  type End,
  pinCursor,
  placeCursor,
  readDimension,
  removeCursor,
  removeDimension,
} from "../../job/edits/dimensions.ts";
import { asShown, filtersOn, throughText } from "../../job/edits/filters.ts";
import { visibleLanes } from "../../job/edits/lanes.ts";
import type { Anchor, BenchState, Dimension } from "../../job/record/job.ts";
import { newId } from "../../job/record/new-id.ts";
import type {
  Aim,
  DimensionEvent,
  DimensionLook,
  LitSpot,
  Range,
  Readout,
  Spot,
  Tool,
} from "../../plot/stage/types.ts";
import { subject } from "../core/context.ts";
import type { Ground } from "../core/ground.ts";
import { createLatest } from "../core/latest.ts";
import { anchorOf, createSnapping, type Snapping } from "./snapping.ts";

/** The field in the panel that wants the keyboard. */
export interface Asked {
  readonly id: string;
  readonly field: End | "label";
}

export interface Dimensions {
  readonly tool: Accessor<Tool>;
  setTool(tool: Tool): void;
  readonly selected: Accessor<string | null>;
  select(id: string | null): void;
  readonly asked: Accessor<Asked | null>;
  /** Cursors first, then what is pinned. */
  readonly all: Accessor<readonly Dimension[]>;
  readonly looks: Accessor<readonly DimensionLook[]>;
  readonly readouts: Accessor<readonly Readout[]>;
  /** Scales in force and the traces' width: what a mark set by hand can be trusted to. */
  readonly scales: Accessor<Readonly<Record<string, Range>>>;
  setScales(ranges: ReadonlyMap<string, Range>): void;
  setPixels(width: number): void;
  handle(event: DimensionEvent): void;
  readonly snapping: Snapping;
  /** Ends under the hand, while a pair is drawn. */
  aim(aim: Aim | null): void;
  readonly lit: Accessor<readonly LitSpot[]>;
  /** A pair in the middle of the view, for those who use no pointer. */
  placePair(kind: Dimension["kind"]): void;
  moveEnd(id: string, end: End, value: number): void;
  /** False where there is nothing of the kind in reach. */
  snap(id: string, end: End, to: SnapRequest["to"]): Promise<boolean>;
  rename(id: string, label: string): void;
  pin(kind: Dimension["kind"], label?: string): void;
  remove(id: string): void;
  /** Time pairs that span two recordings, read anew after one of them was shifted. */
  readAgain(state: BenchState): BenchState;
}

export const { Context: DimensionsContext, use: useDimensions } = subject<Dimensions>("Dimensions");

type Instants = Accessor<readonly Pick<Readout, "time" | "kind">[]>;

/** How far snapping looks, as a share of the view. */
const reach = 0.1;
/** A lane is about this many pixels high: what a level set by hand can be trusted to. */
const lanePixels = 400;

/** @param instants read out beside the ends of the time pair. */
export function createDimensions(ground: Ground, instants: Instants): Dimensions {
  const { bench, captureId } = ground;
  const [tool, setTool] = createSignal<Tool>("pan");
  const [selected, select] = createSignal<string | null>(null);
  const [asked, ask] = createSignal<Asked | null>(null);
  const [scales, setScales] = createSignal<ReadonlyMap<string, Range>>(new Map());
  const [pixels, setPixels] = createSignal(1000);
  createEffect(on(captureId, () => select(null), { defer: true }));
  const facts = createLaneFacts(ground, { scales, pixels });
  const edits = createEdits(ground, facts, { selected, select, ask, setTool });
  const snapping = createSnapping(ground, { channelsOf: facts.channelsOf, scales, pixels });
  return {
    tool,
    setTool,
    selected,
    select,
    asked,
    all: createMemo(() => [...bench.state().cursors, ...bench.state().dimensions]),
    looks: createMemo(() => [
      ...bench.state().dimensions.map((d) => ({ ...asShown(d), isCursor: false })),
      ...bench.state().cursors.map((d) => ({ ...asShown(d), isCursor: true })),
    ]),
    readouts: createReadouts(ground, facts, instants),
    scales: () => Object.fromEntries(scales()),
    setScales,
    setPixels,
    placePair(kind) {
      const lane = bench.state().lanes.find((l) => facts.channelsOf(l.id).length > 0);
      if (lane) edits.place(pairInView(kind, lane.id, ground.view.view(), scales().get(lane.id) ?? [0, 1]));
    },
    ...edits,
    readAgain(state) {
      const again = (all: readonly Dimension[]) =>
        all.map((d) => (shiftDoubt(state, d) > 0 ? facts.read(d, state) : d));
      return { ...state, cursors: again(state.cursors), dimensions: again(state.dimensions) };
    },
    handle: (event) => heed(event, edits, { bench, select, ask, snapping }),
    snapping,
    aim: snapping.aim,
    lit: snapping.lit,
  };
}

/** What is known of the lanes where pairs stand: their channels, and what a mark set by hand can be trusted to. */
function createLaneFacts({ companions, bench, summary, view }: Ground, { scales, pixels }: Drawn) {
  const all = createMemo(() => [
    ...(summary()?.channels ?? []),
    ...companions.list().flatMap(({ channels }) => channels),
  ]);
  const shownIds = createMemo(() => {
    const there = new Set(all().map(({ id }) => id));
    return visibleLanes(bench.state()).flatMap(({ channelIds }) => channelIds.filter((id) => there.has(id)));
  });
  const channelsOf = (laneId: string) => {
    const lane = bench.state().lanes.find((l) => l.id === laneId);
    const ids = (lane?.channelIds ?? []).filter((id) => !bench.state().hidden.includes(id));
    return ids.length === 0 ? [] : all().filter((c) => ids.includes(c.id));
  };
  const unitOf = (laneId: string) => channelsOf(laneId)[0]?.unit ?? "";
  /** Half a sample step or half a pixel, whichever is more. */
  const doubtOf = ({ kind, laneId }: Pick<Dimension, "kind" | "laneId">) => {
    const [low, high] = scales().get(laneId) ?? [0, 1];
    if (kind === "level") return (high - low) / lanePixels / 2;
    const steps = channelsOf(laneId).map(({ rate }) => (rate.value ? 1 / rate.value : 0));
    return Math.max(...steps, (view.view().to - view.view().from) / pixels()) / 2;
  };
  const nameOf = (id: string) => {
    const channel = summary()?.channels.find((one) => one.id === id);
    return channel ? channelInForce(bench.state(), channel).name : id;
  };
  const read = ({ through: _, ...draft }: DimensionDraft, state = bench.state()): Dimension => {
    const reading = readDimension(draft, doubtOf(draft), unitOf(draft.laneId), shiftDoubt(state, draft));
    const ids = channelsOf(draft.laneId).map(({ id }) => id);
    const through = throughText(draft, { ids, filters: filtersOn(state), nameOf });
    return { ...draft, reading, ...(through ? { through } : {}) };
  };
  return { channelsOf, shownIds, read };
}

interface Drawn {
  readonly scales: Accessor<ReadonlyMap<string, Range>>;
  readonly pixels: Accessor<number>;
}

interface Hands {
  readonly selected: Accessor<string | null>;
  select(id: string | null): void;
  ask(asked: Asked): void;
  setTool(tool: Tool): void;
}

/** Each is one step of undo. */
function createEdits(ground: Ground, { channelsOf, read }: ReturnType<typeof createLaneFacts>, hands: Hands) {
  const { companions, desk, bench, summary, view, notices } = ground;
  const { selected, select, ask, setTool } = hands;
  /** Read anew only where an end moved: not as the line is drawn elsewhere, whatever is in force by now. */
  const change = (id: string, next: (d: Dimension) => DimensionDraft, key?: string) => {
    const readAnew = (d: Dimension): Dimension => {
      const draft = next(d);
      return draft.from === d.from && draft.to === d.to ? { ...draft, reading: d.reading } : read(draft);
    };
    bench.edit((state) => changeDimension(state, id, readAnew), key);
  };
  const place = (pair: Omit<DimensionDraft, "id" | "label">) => {
    const id = newId();
    bench.edit((state) => placeCursor(state, read({ ...pair, id, label: "" })));
    select(id);
    setTool("pan");
  };
  const remove = (id: string) => {
    const cursor = bench.state().cursors.find((c) => c.id === id);
    bench.edit((state) => (cursor ? removeCursor(state, cursor.kind) : removeDimension(state, id)));
    if (selected() === id) select(null);
  };
  const pin = (kind: Dimension["kind"], label = "") => {
    const id = newId();
    if (!cursorOf(bench.state(), kind)) return;
    bench.edit((state) => pinCursor(state, kind, id, label));
    select(id);
    ask({ id, field: "label" });
  };
  const snap = async (id: string, end: End, to: SnapRequest["to"]) => {
    const [dimension, capture] = [dimensionOf(bench.state(), id), summary()];
    if (!dimension || !capture) return true;
    const within = reach * (view.view().to - view.view().from);
    const channelIds = channelsOf(dimension.laneId).map((c) => c.id);
    const near = dimension[end].time;
    const level = desk.limits().switchLevel;
    const filters = filtersOn(bench.state());
    const wish = { take: capture.take, channelIds, filters, near, within, to, level };
    const found = await companions.service.snap(wish);
    if (!found) {
      notices.say(`No ${to} near this end.`);
      return false;
    }
    change(id, (d) => ({ ...d, [end]: anchorOf(found, to, filters) }));
    return true;
  };
  const moveEnd = (id: string, end: End, value: number) =>
    change(id, (d) => ({
      ...d,
      [end]: d.kind === "time" ? { time: value, level: d[end].level } : { time: d[end].time, level: value },
    }));
  const rename = (id: string, label: string) =>
    bench.edit((state) => changeDimension(state, id, (d) => ({ ...d, label })), `label-${id}`);
  return { change, place, remove, pin, snap, moveEnd, rename };
}

/** What the plot's gestures ask for. */
function heed(
  event: DimensionEvent,
  { place, change, snap, remove, pin }: ReturnType<typeof createEdits>,
  { bench, select, ask, snapping }: Pick<Ground, "bench"> & Pick<Hands, "select" | "ask"> & { snapping: Snapping },
): void {
  if (event.kind === "place") {
    const { from, to, ...rest } = event.dimension;
    place({ ...rest, from: snapping.settled(from), to: snapping.settled(to) });
  } else if (event.kind === "select") select(event.id);
  else if (event.id.startsWith("lift-off-")) return;
  else if (event.kind === "move") {
    const { part } = event;
    const isAimed = event.isDragged === true && part !== "line";
    const set = isAimed && event.final ? { [part]: snapping.settled(event[part]) } : {};
    change(event.id, (d) => ({ ...moved(d, event), ...set }), `move-${event.id}-${part}`);
    if (isAimed) snapping.aim(event.final ? null : aimOf(event, bench.state()));
    if (event.final) bench.settle();
  } else if (event.kind === "type") ask({ id: event.id, field: event.part });
  else if (event.kind === "label") ask({ id: event.id, field: "label" });
  else if (event.kind === "snap") void snap(event.id, event.part, event.snapTo);
  else if (event.kind === "remove") remove(event.id);
  else {
    const cursor = bench.state().cursors.find(({ id }) => id === event.id);
    if (cursor) pin(cursor.kind);
  }
}

function aimOf(event: Extract<DimensionEvent, { kind: "move" }>, state: BenchState): Aim | null {
  const dimension = dimensionOf(state, event.id);
  if (!dimension || event.part === "line") return null;
  return { kind: dimension.kind, laneId: dimension.laneId, ends: [event[event.part]] };
}

/** A pair in the middle of what is seen. */
function pairInView(kind: Dimension["kind"], laneId: string, { from, to }: Span, [low, high]: Range) {
  const at = (share: number, level: number): Anchor => ({
    time: from + share * (to - from),
    level: low + level * (high - low),
  });
  if (kind === "time") return { kind, laneId, from: at(0.4, 0.5), to: at(0.6, 0.5), place: at(0, 0.7).level };
  return { kind, laneId, from: at(0.5, 0.3), to: at(0.5, 0.7), place: at(0.5, 0).time };
}

/** What all channels shown read at the ends of the time pair, at the held instant and under the pointer. */
function createReadouts(
  { bench, summary, companions }: Ground,
  { shownIds }: ReturnType<typeof createLaneFacts>,
  instants: Instants,
): Accessor<readonly Readout[]> {
  const readoutTimes = createMemo(() => {
    const pair = cursorOf(bench.state(), "time");
    const ends = (pair ? [pair.from.time, pair.to.time] : []).map((time) => ({ time, kind: "pair" as const }));
    const times = [...ends, ...instants()];
    const capture = summary();
    return capture && times.length > 0 ? { take: capture.take, times, ids: shownIds() } : null;
  });
  const readouts = createLatest(
    readoutTimes,
    ({ take, times, ids }) =>
      Promise.all(times.map(async (at) => ({ ...at, values: await companions.service.valuesAt(take, ids, at.time) }))),
    { about: ({ take }) => take.captureId },
  );
  return () => readouts.value() ?? [];
}

/** An end that moved stands where the hand put it; one that did not keeps its snap. */
function moved(d: Dimension, { from, to, place }: Extract<DimensionEvent, { kind: "move" }>): DimensionDraft {
  return { ...d, from: settled(d.from, from), to: settled(d.to, to), place };
}

function settled(anchor: Anchor, spot: Spot): Anchor {
  return anchor.time === spot.time && anchor.level === spot.level ? anchor : { time: spot.time, level: spot.level };
}
