// A box that goes where its words say: "cruise", "lift-off 2", "rear wakes", "120 s".

import { type Component, createMemo, createSignal, createUniqueId, For, Show } from "solid-js";
import { useGround } from "../core/ground.ts";
import { useLiftOffs } from "../lift-offs/lift-offs.ts";
import { usePlaces } from "../places/places.ts";
import { useInstants } from "../reading-out/instants.ts";
import { useStretches } from "../stretches/stretches.ts";
import { destinationsOf, type Known, timeDestination } from "./all-destinations.ts";
import { type Destination, matching } from "./destinations.ts";

export const GoTo: Component = () => {
  const instants = useInstants();
  const known: Known = {
    ground: useGround(),
    liftOffs: useLiftOffs(),
    stretches: useStretches(),
    places: usePlaces(),
    point: (time) => instants.point(time, true),
  };
  const listId = createUniqueId();
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
  return (
    <div class="go-to">
      <input
        role="combobox"
        aria-label="Go to"
        placeholder="Go to …"
        aria-expanded={isOpen()}
        aria-controls={listId}
        aria-autocomplete="list"
        aria-activedescendant={isOpen() && found().length > 0 ? `${listId}-${at()}` : undefined}
        value={typed()}
        onInput={(event) => type(event.currentTarget.value)}
        onFocus={() => type(typed())}
        onBlur={() => setOpen(false)}
        onKeyDown={key}
      />
      <Show when={isOpen()}>
        <div class="go-to-list">
          <div id={listId} role="listbox" aria-label="Places to go to" tabindex={-1}>
            <For each={found()}>
              {(destination, i) => (
                // biome-ignore lint/a11y/useKeyWithClickEvents: the box above has the keys
                // biome-ignore lint/a11y/useFocusableInteractive: the focus stays in the box, which tells which is active
                <div
                  id={`${listId}-${i()}`}
                  role="option"
                  aria-selected={at() === i()}
                  onPointerDown={(event) => event.preventDefault()}
                  onClick={() => go(destination)}
                >
                  {destination.label}
                </div>
              )}
            </For>
          </div>
          <Show when={found().length === 0}>
            <p role="status">
              Nothing by that name. Try “cruise”, “lift-off 2”, “rear wakes” or a time such as “120 s”.
            </p>
          </Show>
        </div>
      </Show>
    </div>
  );
};
