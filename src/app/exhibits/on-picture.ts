// What can be changed on the picture: how it is called, what it says, and where it stands, in shares of the picture.

import type { Page } from "../../report/exhibit/page.ts";
import type { PlacedWords } from "../../report/exhibit/placed-words.ts";
import type { Maker } from "./maker.ts";

/** Where a pointer is. */
export type Pointed = Pick<MouseEvent, "clientX" | "clientY">;

/** As words of a label: "headline", "note 2". */
export function nameOf({ kind, id }: PlacedWords, maker: Maker): string {
  const { notes } = maker.edits();
  if (kind === "note") return `note ${notes.findIndex((note) => note.id === id) + 1}`;
  return { headline: "headline", subline: "plain words", label: "words below a measure" }[kind];
}

export function textOf({ kind, id }: PlacedWords, maker: Maker): string {
  const edits = maker.edits();
  if (kind === "headline" || kind === "subline") return edits[kind];
  if (kind === "note") return edits.notes.find((note) => note.id === id)?.text ?? "";
  return maker.sheet().dimensions.find((one) => one.id === id)?.label ?? "";
}

export function changeText({ kind, id }: PlacedWords, maker: Maker, text: string): void {
  if (kind === "headline" || kind === "subline") maker.change({ [kind]: text });
  else if (kind === "note") maker.changeNote(id, { text });
  else maker.change({ labels: { ...maker.edits().labels, [id]: text } });
}

/** CSS of a place on the picture, whatever its size. */
export const shareOf = (mm: number, whole: number): string => `${((100 * mm) / whole).toFixed(3)}%`;

/** A box on the picture as CSS. What is taller under a finger than on the picture grows downwards, the headline upwards. */
export function placeOf({ box, kind }: PlacedWords, { width, height }: Page): Record<string, string> {
  return {
    left: shareOf(box.left, width),
    ...(kind === "headline" ? { bottom: shareOf(height - box.bottom, height) } : { top: shareOf(box.top, height) }),
    width: shareOf(box.right - box.left, width),
    height: shareOf(box.bottom - box.top, height),
  };
}
