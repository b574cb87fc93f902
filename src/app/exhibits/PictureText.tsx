// A field over words of the picture, while they are written.

import { type Component, onCleanup } from "solid-js";
import type { Page } from "../../report/exhibit/page.ts";
import type { PlacedWords } from "../../report/exhibit/placed-words.ts";
import type { Maker } from "./maker.ts";
import { changeText, nameOf, shareOf, textOf } from "./on-picture.ts";

const longest = { headline: 220, subline: 220, note: 160, label: 60 } as const;

export const PictureText: Component<{
  readonly words: PlacedWords;
  readonly page: Page;
  readonly maker: Maker;
  readonly onClose: () => void;
}> = (props) => {
  const { id, kind } = props.words;
  const { maker } = props;
  /** A note that was begun and says nothing is no note. */
  onCleanup(() => {
    if (
      kind === "note" &&
      maker
        .edits()
        .notes.find((note) => note.id === id)
        ?.text.trim() === ""
    )
      maker.removeNote(id);
  });
  const key = (event: KeyboardEvent) => {
    const isOver = event.key === "Escape" || (event.key === "Enter" && !event.shiftKey);
    if (!isOver) return;
    event.preventDefault();
    event.stopPropagation();
    props.onClose();
  };
  const isWide = kind === "headline" || kind === "subline";
  const left = () => Math.min(props.words.box.left, props.page.width * (isWide ? 1 : 0.7));
  return (
    <textarea
      class="picture-text"
      classList={{ "picture-text-wide": isWide }}
      rows={2}
      maxLength={longest[kind]}
      style={{ left: shareOf(left(), props.page.width), top: shareOf(props.words.box.top, props.page.height) }}
      aria-label={`Words on the picture: ${nameOf(props.words, maker)}`}
      value={textOf(props.words, maker)}
      ref={(field) => queueMicrotask(() => field.focus())}
      onInput={(event) => changeText(props.words, maker, event.currentTarget.value)}
      onKeyDown={key}
      onBlur={() => props.onClose()}
    />
  );
};
