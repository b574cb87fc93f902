// Words on the picture: a touch writes them; a note's are dragged to another side of its point.

import type { Component } from "solid-js";
import type { Page } from "../../report/exhibit/page.ts";
import type { PlacedWords } from "../../report/exhibit/placed-words.ts";
import type { Maker } from "./maker.ts";
import { nameOf, type Pointed, placeOf } from "./on-picture.ts";

/** A shorter way is a touch, px. */
const slop = 8;

export const PictureWords: Component<{
  readonly words: PlacedWords;
  readonly page: Page;
  readonly maker: Maker;
  readonly under: (pointer: Pointed) => { readonly at: { readonly time: number; readonly level: number } } | null;
  readonly onWrite: () => void;
}> = (props) => {
  let start: Pointed | null = null;
  let isDrag = false;
  const down = (event: PointerEvent & { readonly currentTarget: HTMLElement }) => {
    [start, isDrag] = [event, false];
    event.currentTarget.setPointerCapture(event.pointerId);
  };
  const move = (event: PointerEvent) => {
    if (!start || props.words.kind !== "note") return;
    isDrag ||= Math.hypot(event.clientX - start.clientX, event.clientY - start.clientY) > slop;
    const note = props.maker.edits().notes.find(({ id }) => id === props.words.id);
    const found = props.under(event);
    if (!isDrag || !note || !found) return;
    const side =
      `${found.at.level >= note.at.level ? "above" : "below"}-${found.at.time >= note.at.time ? "right" : "left"}` as const;
    if (side !== note.side) props.maker.changeNote(note.id, { side });
  };
  return (
    <button
      type="button"
      class="picture-words"
      classList={{ "picture-note": props.words.kind === "note" }}
      style={placeOf(props.words, props.page)}
      aria-label={`Change ${nameOf(props.words, props.maker)}`}
      onPointerDown={down}
      onPointerMove={move}
      onPointerUp={() => {
        start = null;
      }}
      onClick={() => {
        if (!isDrag) props.onWrite();
        isDrag = false;
      }}
    />
  );
};
