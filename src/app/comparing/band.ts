// What known-good lift-offs usually do, laid at each lift-off of the suspect: median and 5 to 95 %, over all lift-offs of
// the reference and of whatever known-good traces were added to it.

import { type Accessor, createEffect, createMemo, createSignal, on } from "solid-js";
import type { ChannelWindow } from "../../../workers/protocol.ts";
import type { BandLayer } from "../../drawing/layer.ts";
import type { Polyline } from "../../drawing/paths.ts";
import type { ComparedLiftOff } from "../../exhaust/comparing/comparison.ts";
import type { Shelf } from "../../job/shelf/shelf.ts";
import type { Ground } from "../core/ground.ts";
import { createLatest } from "../core/latest.ts";
import { bandOf, middleLine } from "./difference-line.ts";
import { type Choice, choiceOf, fetchReference, keyOf, type Reference } from "./reference.ts";

/** About the front's fall, s; instants of the band, and pixels asked for. */
const from = -1;
const to = 4;
const count = 300;
const width = 1200;

/** The word its layers come from. */
export const usualSource = "usual";

export interface UsualBand {
  readonly isShown: Accessor<boolean>;
  show(isShown: boolean): void;
  /** Known-good traces in the band beside the reference. */
  readonly members: Accessor<readonly Reference[]>;
  /** Name of one on its way. */
  readonly fetching: Accessor<string | null>;
  has(choice: Choice): boolean;
  /** Takes it in, or out again; the band is shown then. */
  toggle(key: string): void;
  /** Lift-offs behind it; a band needs two. */
  readonly events: Accessor<number>;
  /** At each lift-off of the suspect; empty with fewer than two lift-offs behind it. */
  readonly layers: Accessor<readonly BandLayer[]>;
}

export interface BandRule {
  readonly shelf: Shelf;
  readonly reference: Accessor<Reference | null>;
  /** The suspect's lift-offs. */
  readonly at: Accessor<readonly ComparedLiftOff[]>;
}

export function createBand(ground: Ground, { shelf, reference, at }: BandRule): UsualBand {
  const { service, bench } = ground;
  const keys = createMemo(() => bench.state().banded ?? null);
  const wanted = createMemo(() => (reference() ? (keys() ?? []) : []));
  const { fetched, fetching } = createMembers(ground, shelf, wanted);
  const members = createMemo(() =>
    (keys() ?? []).filter((key) => key !== reference()?.key).flatMap((key) => fetched().get(key) ?? []),
  );
  const sources = createMemo(() => {
    const first = reference();
    return first && keys() ? [first, ...members()] : null;
  });
  const bands = createLatest(sources, async (all) => {
    const both = await Promise.all((["front", "rear"] as const).map((look) => bandAt(service, look, all)));
    return both.flat();
  });
  const set = (next: readonly string[] | null) =>
    bench.edit(({ banded: _, ...state }) => (next ? { ...state, banded: next } : state));
  return {
    isShown: () => keys() !== null,
    show: (isShown) => set(isShown ? (keys() ?? []) : null),
    members,
    fetching,
    has: (choice) => keys()?.includes(keyOf(choice)) ?? false,
    toggle(key) {
      const now = keys() ?? [];
      set(now.includes(key) ? now.filter((one) => one !== key) : [...now, key]);
    },
    events: createMemo(() => (sources() ?? []).reduce((sum, { comparable }) => sum + fallsOf(comparable).length, 0)),
    layers: createMemo(() =>
      (bands.value() ?? []).flatMap((band) =>
        at().flatMap(({ frontFall: { value } }) =>
          value === null ? [] : [{ ...band, times: band.times.map((time) => time + value) }],
        ),
      ),
    ),
  };
}

/** Known-good traces, brought one after the other: a file that is opened gives up the one under way. */
function createMembers(ground: Ground, shelf: Shelf, wanted: Accessor<readonly string[]>) {
  const { desk, notices } = ground;
  const [fetched, setFetched] = createSignal<ReadonlyMap<string, Reference>>(new Map());
  const [fetching, setFetching] = createSignal<string | null>(null);
  const tried = new Set<string>();
  let isBusy = false;
  createEffect(
    on(wanted, async () => {
      if (isBusy) return;
      isBusy = true;
      for (let key = nextKey(); key !== undefined; key = nextKey()) await fetch(key);
      isBusy = false;
    }),
  );
  function nextKey(): string | undefined {
    const all = wanted();
    for (const key of tried) if (!all.includes(key)) tried.delete(key);
    return all.find((key) => !fetched().has(key) && !tried.has(key));
  }
  async function fetch(key: string): Promise<void> {
    tried.add(key);
    const kept = await shelf.list();
    const choice = choiceOf(key, kept.ok ? kept.value.traces : [], desk.job().captures);
    if (!choice) return;
    setFetching(nameOf(choice));
    const outcome = await fetchReference(choice, ground);
    setFetching(null);
    if (outcome.ok) setFetched((all) => new Map(all).set(key, outcome.value));
    else notices.show(outcome.problem);
  }
  return { fetched, fetching };
}

type Service = Ground["service"];

async function bandAt(service: Service, look: "front" | "rear", all: readonly Reference[]): Promise<BandLayer[]> {
  const lines = (await Promise.all(all.map((one) => linesOf(service, look, one)))).flat();
  return lines.length > 1
    ? [{ form: "band", source: usualSource, label: "Usual", look, ...bandOf(lines, [from, to], count) }]
    : [];
}

/** The line of each lift-off, its front fall at zero. */
async function linesOf(
  service: Service,
  look: "front" | "rear",
  { summary, comparable }: Reference,
): Promise<Polyline[]> {
  const channel = summary.channels.find((c) => c.role === `${look}-o2` && c.bank === comparable.bank);
  if (!channel) return [];
  return Promise.all(
    fallsOf(comparable).map(async (fall) => {
      const span = { from: fall + from, to: fall + to };
      const request = { take: summary.take, channelIds: [channel.id], span, width };
      const [line] = (await service.window(request)) as readonly [ChannelWindow];
      return middleLine({ ...line, times: line.times.map((time) => time - fall) });
    }),
  );
}

const fallsOf = ({ liftOffs }: Reference["comparable"]) => liftOffs.flatMap(({ frontFall }) => frontFall.value ?? []);
export const nameOf = (choice: Choice) => (choice.kind === "job" ? choice.record.fileName : choice.trace.name);
