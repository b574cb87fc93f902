// Instants and spans with a name, as dotted lines through all lanes with the name at their foot.

import { type Component, createMemo, For } from "solid-js";
import { toPixel } from "../../drawing/paths.ts";
import { axisHeight, gutter, margin } from "../stage/layout.ts";
import { letterSize } from "../stage/letters.ts";
import type { Stage } from "../stage/stage.ts";
import { textWidth } from "../stage/text-width.ts";
import type { NamedPlace } from "../stage/types.ts";

const size = () => letterSize(13);

export const Places: Component<{ places: readonly NamedPlace[]; stage: Stage; clip: string }> = (props) => {
  const bottom = () => props.stage.size().height - axisHeight;
  const drawn = createMemo(() => placesInView(props.places, props.stage));
  return (
    <g class="places" clip-path={props.clip}>
      <For each={drawn()}>
        {({ from, to, name }) => (
          <>
            <path class="place-line" d={`M${from} 0V${bottom()}${to > from ? `M${to} 0V${bottom()}` : ""}`} />
            <text class="place-name" font-size={`${size()}px`} x={from + 5} y={bottom() - 5}>
              {name}
            </text>
          </>
        )}
      </For>
    </g>
  );
};

/** Pixels; a name that would run into the next place's is cut short. */
function placesInView(places: readonly NamedPlace[], stage: Stage): readonly NamedPlace[] {
  const [x, right] = [stage.x(), stage.size().width - margin];
  const inView = places
    .map(({ from, to, name }) => ({ from: toPixel(x, from), to: toPixel(x, to), name }))
    .filter(({ from, to }) => to >= gutter && from <= right)
    .sort((a, b) => a.from - b.from);
  return inView.map((one, i) => {
    const from = Math.max(gutter, one.from);
    return { ...one, name: cut(one.name, (inView[i + 1]?.from ?? right) - from - 10) };
  });
}

function cut(name: string, room: number): string {
  if (textWidth(name, size(), 600) <= room) return name;
  let kept = name;
  while (kept !== "" && textWidth(`${kept}…`, size(), 600) > room) kept = kept.slice(0, -1);
  return kept === "" ? "" : `${kept}…`;
}
