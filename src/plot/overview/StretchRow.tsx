// The kinds of running along the whole recording, as buttons: one stop for the Tab key, arrows go along them.

import { type Component, For } from "solid-js";
import { type Mapping, toPixel } from "../../drawing/paths.ts";
import type { Stretch } from "../../exhaust/terms/analysis.ts";
import { formatTime } from "../../signal/written/reading-text.ts";
import { textWidth } from "../stage/text-width.ts";
import type { OverviewProps } from "../stage/types.ts";

interface RowProps extends Pick<OverviewProps, "stretches" | "stretchName" | "chosenStretch" | "onStretch"> {
  readonly x: Mapping;
}

export const StretchRow: Component<RowProps> = (props) => {
  let row!: HTMLDivElement;
  return (
    <div
      class="overview-stretches"
      role="toolbar"
      aria-label="Stretches"
      ref={row}
      onKeyDown={(event) => alongButtons(event, row)}
    >
      <For each={props.stretches}>
        {(stretch, i) => (
          <StretchBand
            stretch={stretch}
            x={props.x}
            name={props.stretchName(stretch.kind)}
            isChosen={props.chosenStretch === stretch}
            isStop={i() === Math.max(0, props.stretches.indexOf(props.chosenStretch!))}
            onTouch={props.onStretch}
          />
        )}
      </For>
    </div>
  );
};

/** Arrows, Home and End go to the narrowest stretch too, and choose it. */
function alongButtons(event: KeyboardEvent, row: HTMLElement): void {
  const buttons = [...row.querySelectorAll("button")];
  const at = buttons.indexOf(document.activeElement as HTMLButtonElement);
  const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: buttons.length - 1 }[event.key];
  const wanted = to === undefined ? undefined : buttons[Math.min(Math.max(to, 0), buttons.length - 1)];
  if (!wanted) return;
  event.preventDefault();
  event.stopPropagation();
  wanted.focus();
  wanted.click();
}

interface BandProps {
  readonly stretch: Stretch;
  readonly x: Mapping;
  readonly name: string;
  readonly isChosen: boolean;
  readonly isStop: boolean;
  readonly onTouch: (stretch: Stretch) => void;
}

const StretchBand: Component<BandProps> = (props) => {
  const left = () => toPixel(props.x, props.stretch.from);
  const width = () => Math.max(1, toPixel(props.x, props.stretch.to) - left() - 1);
  const hasRoom = () => textWidth(props.name, 13) + 10 < width();
  const isCorrected = () => props.stretch.origin === "user";
  const text = () => {
    const span = `${formatTime(props.stretch.from, 0.1)} to ${formatTime(props.stretch.to, 0.1)}`;
    return `${props.name}, ${span}${isCorrected() ? ", corrected by hand" : ""}`;
  };
  return (
    <button
      type="button"
      class={`stretch stretch-${props.stretch.kind}`}
      classList={{ "stretch-corrected": isCorrected() }}
      aria-current={props.isChosen}
      tabindex={props.isStop ? 0 : -1}
      style={{ left: `${left()}px`, width: `${width()}px` }}
      title={text()}
      aria-label={text()}
      onClick={() => props.onTouch(props.stretch)}
    >
      <span>{hasRoom() ? props.name : ""}</span>
    </button>
  );
};
