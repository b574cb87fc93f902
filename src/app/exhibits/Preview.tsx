// The sheet as it will be; a touch on it says where the chosen note points.

import { type Component, Show } from "solid-js";
import { sheetPlot } from "../../report/exhibit/exhibit-svg.ts";
import { placeUnder } from "../../report/exhibit/plot-area.ts";
import type { ExhibitSheet, Place } from "../../report/exhibit/sheet.ts";

export const Preview: Component<{
  readonly sheet: ExhibitSheet;
  readonly address: string | null;
  /** Set while a note waits for its point. */
  readonly onPlace?: ((laneId: string, at: Place) => void) | undefined;
}> = (props) => {
  function place(event: PointerEvent & { readonly currentTarget: HTMLImageElement }): void {
    const { left, top, width, height } = event.currentTarget.getBoundingClientRect();
    const { page, plot } = sheetPlot(props.sheet);
    const x = ((event.clientX - left) / width) * page.width;
    const y = ((event.clientY - top) / height) * page.height;
    const found = placeUnder(plot, [x, y]);
    if (found) props.onPlace?.(found.laneId, found.at);
  }
  return (
    <div class="exhibit-preview">
      <Show when={props.address} fallback={<p role="status">Drawing the sheet …</p>}>
        {(address) => (
          <img
            src={address()}
            alt={`Preview of the sheet: ${props.sheet.headline}`}
            classList={{ placing: props.onPlace !== undefined }}
            draggable={false}
            onPointerUp={place}
          />
        )}
      </Show>
    </div>
  );
};
