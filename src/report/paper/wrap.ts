// Fits words into a width: breaks lines, and shortens what is too long with care.

import { textWidth, type Weight } from "./metrics.ts";

export interface Face {
  readonly size: number;
  readonly weight?: Weight;
}

const fits = (text: string, width: number, face: Face): boolean => textWidth(text, face.size, face.weight) <= width;

/**
 * Breaks text at blanks into lines no wider than `width`; a word that is wider than a line is broken.
 *
 * @param width in the unit of `face.size`.
 * @returns one line or more, none wider than `width`; [""] for blank text. A line feed starts a new line.
 */
export function wrap(text: string, width: number, face: Face): string[] {
  return text.split("\n").flatMap((paragraph) => wrapParagraph(paragraph, width, face));
}

function wrapParagraph(text: string, width: number, face: Face): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/[ \t\r]+/).filter((part) => part !== "")) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (fits(longer, width, face)) {
      line = longer;
      continue;
    }
    if (line !== "") lines.push(line);
    const parts = breakWord(word, width, face);
    line = parts.pop()!;
    lines.push(...parts);
  }
  return [...lines, line];
}

/** The word in pieces that each fit, at least one letter a piece. */
function breakWord(word: string, width: number, face: Face): string[] {
  const parts: string[] = [];
  let part = "";
  for (const letter of word) {
    if (part !== "" && !fits(part + letter, width, face)) {
      parts.push(part);
      part = "";
    }
    part += letter;
  }
  return [...parts, part];
}

/** As `wrap`, but at most `count` lines; what does not fit ends in an ellipsis. */
export function wrapAtMost(count: number, text: string, width: number, face: Face): string[] {
  const lines = wrap(text, width, face);
  if (lines.length <= count) return lines;
  return [...lines.slice(0, count - 1), shortenEnd(lines.slice(count - 1).join(" "), width, face)];
}

/** Cuts the end off and says so with an ellipsis. */
export function shortenEnd(text: string, width: number, face: Face): string {
  if (fits(text, width, face)) return text;
  const letters = [...text];
  while (letters.length > 0 && !fits(`${letters.join("").trimEnd()}…`, width, face)) letters.pop();
  return `${letters.join("").trimEnd()}…`;
}

/** Takes letters out of the middle, so that a file keeps its beginning and its ending. */
export function shortenMiddle(text: string, width: number, face: Face): string {
  if (fits(text, width, face)) return text;
  const letters = [...text];
  for (let kept = letters.length - 1; kept > 1; kept--) {
    const head = Math.ceil(kept / 2);
    const short = `${letters.slice(0, head).join("")}…${letters.slice(letters.length - (kept - head)).join("")}`;
    if (fits(short, width, face)) return short;
  }
  return "…";
}

/** The largest of `sizes` (falling) at which the text takes at most `count` lines; else the smallest. */
export function largestThatFits(
  text: string,
  width: number,
  choice: { sizes: readonly number[]; count: number; weight: Weight },
): number {
  const { sizes, count, weight } = choice;
  return sizes.find((size) => wrap(text, width, { size, weight }).length <= count) ?? sizes.at(-1)!;
}
