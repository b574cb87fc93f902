// The instant that a finger or a key reads, in words: every channel's value, how far it is from the held one, and why there is none.

import { type Component, createEffect, createSignal, For, Show } from "solid-js";
import { linesOf } from "../../drawing/layer.ts";
import type { CursorValue, LaneLook, Readout } from "../../plot/stage/types.ts";
import { formatAtInstant, formatSinceInstant } from "../../signal/written/instant-text.ts";
import { formatDifference, formatTime } from "../../signal/written/reading-text.ts";
import { useGround } from "../core/ground.ts";
import { useDimensions } from "../dimensions/dimensions.ts";
import { CloseIcon } from "../parts/icons.tsx";
import { createUnhurried } from "../parts/pressed.ts";
import { KeepPlace } from "../places/KeepPlace.tsx";
import { useInstants } from "./instants.ts";

export interface InstantBarProps {
  readonly lanes: readonly LaneLook[];
  readonly readouts: readonly Readout[];
}

export const InstantBar: Component<InstantBarProps> = (props) => {
  const { view } = useGround();
  const instants = useInstants();
  const pairs = useDimensions();
  const [isOpen, setOpen] = createSignal(false);
  // The table takes the place of the fields of the pair in hand: with both of them the lanes are too low to be read.
  createEffect(() => pairs.selected() !== null && setOpen(false));
  const turn = () => {
    pairs.select(null);
    setOpen(!isOpen());
  };
  const step = () => (view.view().to - view.view().from) / 1000;
  const said = (time: number) => formatTime(time, step());
  const shown = () => instants.kept() ?? instants.held();
  /** It comes when the finger is lifted, so that the lanes hold still while they are read. */
  const isThere = createUnhurried(() => shown() !== null);
  return (
    <Show when={isThere()}>
      <section class="below-bar" aria-label="Values at an instant">
        <p>
          <Show when={instants.kept() !== null} fallback={<b>Held: {said(instants.held()!)}</b>}>
            <b>At {said(instants.kept()!)}</b>
            <Show when={instants.held() !== null}>
              , {formatDifference(instants.kept()! - instants.held()!, "s", step())} from the held{" "}
              {said(instants.held()!)}
            </Show>
          </Show>
        </p>
        <button type="button" aria-expanded={isOpen()} onClick={turn}>
          Values
        </button>
        <Show
          when={instants.held() === null}
          fallback={
            <button type="button" onClick={() => instants.hold(null)}>
              Let go
            </button>
          }
        >
          <button type="button" onClick={() => instants.hold(instants.at())}>
            Hold
          </button>
        </Show>
        <KeepPlace span={{ from: shown()!, to: shown()! }} />
        <button type="button" class="icon plain" aria-label="End reading out" onClick={instants.clear}>
          <CloseIcon />
        </button>
        <Show when={isOpen()}>
          <ValueTable {...props} />
        </Show>
      </section>
    </Show>
  );
};

const ValueTable: Component<InstantBarProps> = (props) => {
  const of = (kind: Readout["kind"]) => props.readouts.find((one) => one.kind === kind)?.values ?? [];
  const traces = () => props.lanes.flatMap(linesOf);
  return (
    <section class="instant-values" aria-label="All values" tabindex={0}>
      <table>
        <Show when={of("pointer").some(({ between }) => between)}>
          <caption>Between two samples, values are read off the line that joins them.</caption>
        </Show>
        <thead>
          <tr>
            <th scope="col">Channel</th>
            <Show when={of("pointer").length > 0}>
              <th scope="col">Here</th>
            </Show>
            <Show when={of("held").length > 0}>
              <th scope="col">Held</th>
            </Show>
            <Show when={of("pointer").length > 0 && of("held").length > 0}>
              <th scope="col">Difference</th>
            </Show>
          </tr>
        </thead>
        <tbody>
          <For each={traces()}>
            {(trace) => {
              const here = () => of("pointer").find(({ channelId }) => channelId === trace.channelId);
              const held = () => of("held").find(({ channelId }) => channelId === trace.channelId);
              return (
                <tr>
                  <th scope="row">{trace.label}</th>
                  <Show when={of("pointer").length > 0}>
                    <td>{valueText(here(), trace.unit)}</td>
                  </Show>
                  <Show when={of("held").length > 0}>
                    <td>{valueText(held(), trace.unit)}</td>
                  </Show>
                  <Show when={of("pointer").length > 0 && of("held").length > 0}>
                    <td>{differenceText(here(), held(), trace.unit)}</td>
                  </Show>
                </tr>
              );
            }}
          </For>
        </tbody>
      </table>
    </section>
  );
};

function valueText(found: CursorValue | undefined, unit: string): string {
  if (!found) return "";
  if (found.value === null) return "nothing recorded here";
  return formatAtInstant(found.value, unit);
}

function differenceText(here: CursorValue | undefined, held: CursorValue | undefined, unit: string): string {
  if (!here || !held || here.value === null || held.value === null) return "";
  return formatSinceInstant(here.value, held.value, unit);
}
