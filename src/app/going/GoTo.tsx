// A box that goes where its words say: "cruise", "lift-off 2", "rear wakes", "120 s".

import { type Component, createMemo, createSignal, createUniqueId, For, Show } from "solid-js";
import { useGround } from "../core/ground.ts";
import { useLiftOffs } from "../lift-offs/lift-offs.ts";
import { usePlaces } from "../places/places.ts";
import { useInstants } from "../reading-out/instants.ts";
import { useStretches } from "../stretches/stretches.ts";
import { destinationsOf, type Known, timeDestination, whyNowhere } from "./all-destinations.ts";
import { type Destination, matching } from "./destinations.ts";

export const GoTo: Component = () => {
  const listId = createUniqueId();
  const search = createSearch();
  return (
    <div class="go-to">
      <input
        role="combobox"
        aria-label="Go to"
        placeholder="Go to …"
        aria-expanded={search.isOpen()}
        aria-controls={listId}
        aria-autocomplete="list"
        aria-activedescendant={search.isOpen() && search.found().length > 0 ? `${listId}-${search.at()}` : undefined}
        value={search.typed()}
        onInput={(event) => search.type(event.currentTarget.value)}
        onFocus={() => search.type(search.typed())}
        onBlur={search.close}
        onKeyDown={search.key}
      />
      <Show when={search.isOpen()}>
        <Found search={search} listId={listId} />
      </Show>
    </div>
  );
};

type Search = ReturnType<typeof createSearch>;

/** What was typed, where it may lead, and which of these the keys are on. */
function createSearch() {
  const instants = useInstants();
  const known: Known = {
    ground: useGround(),
    liftOffs: useLiftOffs(),
    stretches: useStretches(),
    places: usePlaces(),
    point: (time) => instants.point(time, true),
  };
  const [typed, setTyped] = createSignal("");
  const [isOpen, setOpen] = createSignal(false);
  const [at, setAt] = createSignal(0);
  const found = createMemo((): readonly Destination[] => {
    if (!isOpen()) return [];
    const time = timeDestination(typed(), known);
    return [...(time ? [time] : []), ...matching(destinationsOf(known), typed())];
  });
  const go = (destination: Destination | undefined) => {
    if (!destination) return;
    destination.go();
    setTyped("");
    setOpen(false);
  };
  const key = (event: KeyboardEvent) => {
    const last = found().length - 1;
    if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      if (isOpen()) setAt(Math.min(Math.max(at() + (event.key === "ArrowDown" ? 1 : -1), 0), Math.max(last, 0)));
      setOpen(true);
    } else if (event.key === "Enter") go(found()[at()]);
    else if (event.key === "Escape" && isOpen()) setOpen(false);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  const type = (text: string) => {
    setTyped(text);
    setAt(0);
    setOpen(true);
  };
  const why = () => whyNowhere(typed(), known.ground.companions.whole());
  return { typed, isOpen, at, found, why, go, key, type, close: () => setOpen(false) };
}

const Found: Component<{ readonly search: Search; readonly listId: string }> = (props) => (
  <div class="go-to-list">
    <div id={props.listId} role="listbox" aria-label="Places to go to" tabindex={-1}>
      <For each={props.search.found()}>
        {(destination, i) => (
          // biome-ignore lint/a11y/useKeyWithClickEvents: the box above has the keys
          // biome-ignore lint/a11y/useFocusableInteractive: the focus stays in the box, which tells which is active
          <div
            id={`${props.listId}-${i()}`}
            role="option"
            aria-selected={props.search.at() === i()}
            onPointerDown={(event) => event.preventDefault()}
            onClick={() => props.search.go(destination)}
          >
            {destination.label}
          </div>
        )}
      </For>
    </div>
    <Show when={props.search.found().length === 0}>
      <p role="status">{props.search.why()}</p>
    </Show>
  </div>
);
