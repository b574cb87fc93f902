// Instants and spans with a name: kept in the job, gone to, named anew, taken away.

import { type Accessor, createMemo } from "solid-js";
import type { Span } from "../../exhaust/terms/analysis.ts";
import { keepPlace, namePlace, removePlace } from "../../job/edits/places.ts";
import type { Place } from "../../job/record/job.ts";
import { newId } from "../../job/record/new-id.ts";
import { subject } from "../core/context.ts";
import type { Ground } from "../core/ground.ts";

export interface Places {
  /** In the order of time. */
  readonly list: Accessor<readonly Place[]>;
  /** One step of undo. An instant is a span of no length. */
  keep(span: Span, name: string): void;
  rename(id: string, name: string): void;
  remove(id: string): void;
  go(place: Place): void;
}

export const { Context: PlacesContext, use: usePlaces } = subject<Places>("Named places");

export function createPlaces({ bench, view, shown, setSpan }: Ground): Places {
  const list = createMemo(() => [...(bench.state().places ?? [])].sort((a, b) => a.from - b.from));
  const nameFor = (span: Span) => {
    const kind = span.from === span.to ? "Mark" : "Span";
    const alike = list().filter(({ name }) => name.startsWith(`${kind} `)).length;
    return `${kind} ${alike + 1}`;
  };
  return {
    list,
    keep(span, name) {
      const place = { id: newId(), name: name.trim() || nameFor(span), from: span.from, to: span.to };
      bench.edit((state) => keepPlace(state, place));
    },
    rename: (id, name) => bench.edit((state) => namePlace(state, id, name), `place-${id}`),
    remove: (id) => bench.edit((state) => removePlace(state, id)),
    go({ from, to }) {
      shown.clear();
      if (from === to) return view.show(about(from, view.view()));
      setSpan({ from, to });
      const edge = 0.08 * (to - from);
      view.show({ from: from - edge, to: to + edge });
    },
  };
}

/** A view as wide as this one, with the instant in its middle. */
export function about(time: number, { from, to }: Span): Span {
  return { from: time - (to - from) / 2, to: time + (to - from) / 2 };
}
