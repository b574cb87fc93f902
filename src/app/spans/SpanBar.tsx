// The span chosen by hand: how long it is, the way to look at it alone, and the way to let it go.

import { type Component, Show } from "solid-js";
import { formatTime } from "../../signal/written/reading-text.ts";
import { useGround } from "../core/ground.ts";
import { KeepPlace } from "../places/KeepPlace.tsx";

export const SpanBar: Component = () => {
  const { span, setSpan, view } = useGround();
  return (
    <Show when={span()}>
      {(chosen) => {
        const step = () => (view.view().to - view.view().from) / 1000;
        const said = (time: number) => formatTime(time, step());
        return (
          <section class="below-bar" aria-label="Span">
            <p>
              <b>Span</b> {said(chosen().from)} to {said(chosen().to)}, {said(chosen().to - chosen().from)} long
            </p>
            <button type="button" onClick={() => view.show(chosen())}>
              Zoom to it
            </button>
            <KeepPlace span={chosen()} />
            <button type="button" onClick={() => setSpan(null)}>
              Clear span
            </button>
          </section>
        );
      }}
    </Show>
  );
};
