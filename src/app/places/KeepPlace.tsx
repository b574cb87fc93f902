// A button that gives what is in hand a name and keeps it in the job: the name is asked for in its place.

import { type Component, createSignal, Show } from "solid-js";
import type { Span } from "../../exhaust/terms/analysis.ts";
import { usePlaces } from "./places.ts";

export const KeepPlace: Component<{ readonly span: Span }> = (props) => {
  const places = usePlaces();
  const [isAsking, ask] = createSignal(false);
  let name!: HTMLInputElement;
  const keep = (event: Event) => {
    event.preventDefault();
    places.keep(props.span, name.value);
    ask(false);
  };
  const begin = () => {
    ask(true);
    name.focus();
  };
  return (
    <Show
      when={isAsking()}
      fallback={
        <button type="button" onClick={begin}>
          Name it
        </button>
      }
    >
      <form class="keep-place" onSubmit={keep}>
        <input ref={name} aria-label="Name" placeholder="Name" onKeyDown={(e) => e.key === "Escape" && ask(false)} />
        <button type="submit">Keep</button>
      </form>
    </Show>
  );
};
