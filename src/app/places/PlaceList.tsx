// The instants and spans of this recording that have a name: each can be gone to, named anew and taken away.

import { type Component, For, Show } from "solid-js";
import type { Place } from "../../job/record/job.ts";
import { formatTime } from "../../signal/written/reading-text.ts";
import { CloseIcon } from "../parts/icons.tsx";
import { usePlaces } from "./places.ts";

const step = 0.01;

export const PlaceList: Component = () => {
  const places = usePlaces();
  const ids = () => places.list().map(({ id }) => id);
  return (
    <Show when={ids().length > 0}>
      <section aria-label="Marks and spans">
        <h2>Marks and spans</h2>
        <For each={ids()}>
          {(id) => (
            <Show when={places.list().find((one) => one.id === id)}>{(place) => <PlaceRow place={place()} />}</Show>
          )}
        </For>
      </section>
    </Show>
  );
};

const PlaceRow: Component<{ readonly place: Place }> = (props) => {
  const places = usePlaces();
  return (
    <div class="place-row">
      <input
        aria-label={`Name of ${whenInWords(props.place)}`}
        value={props.place.name}
        onInput={(event) => places.rename(props.place.id, event.currentTarget.value)}
      />
      <button type="button" aria-label={`Go to ${props.place.name}`} onClick={() => places.go(props.place)}>
        {whenInWords(props.place)}
      </button>
      <button
        type="button"
        class="icon plain"
        aria-label={`Remove ${props.place.name}`}
        onClick={() => places.remove(props.place.id)}
      >
        <CloseIcon />
      </button>
    </div>
  );
};

export function whenInWords({ from, to }: Pick<Place, "from" | "to">): string {
  return from === to ? formatTime(from, step) : `${formatTime(from, step)} to ${formatTime(to, step)}`;
}
