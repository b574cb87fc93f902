// Writes SVG as text. One element is one string; whatever came from a user goes through `xmlText` on its way.

import type { Box as TextBox } from "../../drawing/boxes.ts";
import type { Weight } from "./metrics.ts";

export type Attributes = Readonly<Record<string, string | number | undefined>>;

const entities: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** What XML 1.0 allows as a character (section 2.2). */
const isXml = (point: number): boolean =>
  point >= 0x20
    ? point < 0xd800 || (point > 0xdfff && point !== 0xfffe && point !== 0xffff)
    : point === 0x9 || point === 0xa || point === 0xd;

/** Text made safe as content or attribute; a character that XML does not allow becomes a replacement character. */
export function xmlText(text: string): string {
  let safe = "";
  for (const letter of text) safe += isXml(letter.codePointAt(0)!) ? (entities[letter] ?? letter) : "\ufffd";
  return safe;
}

/** Millimetres to two decimals: 2,540 dots an inch, finer than any printer. */
export function mm(value: number): string {
  const text = value.toFixed(2).replace(/\.?0+$/, "");
  return text === "-0" ? "0" : text;
}

/** One element; numbers are millimetres, undefined attributes are left out. `content` is markup already. */
export function tag(name: string, attributes: Attributes, ...content: readonly string[]): string {
  const list = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === "number" ? mm(value) : xmlText(value!)}"`)
    .join("");
  return content.length === 0 ? `<${name}${list}/>` : `<${name}${list}>${content.join("")}</${name}>`;
}

export interface TextLook {
  readonly size: number;
  readonly weight?: Weight;
  readonly anchor?: "start" | "middle" | "end";
  readonly fill?: string;
}

/** One line of text with its baseline at y. */
export function label(x: number, y: number, text: string, look: TextLook): string {
  const { size, weight = 400, anchor = "start", fill } = look;
  return tag(
    "text",
    {
      x,
      y,
      "font-size": size,
      "font-weight": weight === 400 ? undefined : String(weight),
      "text-anchor": anchor === "start" ? undefined : anchor,
      fill,
    },
    xmlText(text),
  );
}

/** A nearly white ground behind words that stand on traces. */
export function plate(box: TextBox): string {
  const { left, top, right, bottom } = box;
  return tag("rect", {
    x: left - 0.8,
    y: top,
    width: right - left + 1.6,
    height: bottom - top + 0.4,
    rx: 0.8,
    fill: "#fff",
    "fill-opacity": "0.86",
  });
}

export interface Line {
  readonly weight: number;
  readonly stroke?: string;
  readonly dash?: string;
}

/** A straight line between two points. */
export function stroke(from: readonly [x: number, y: number], to: readonly [x: number, y: number], line: Line): string {
  return tag("path", {
    d: `M${mm(from[0])} ${mm(from[1])}L${mm(to[0])} ${mm(to[1])}`,
    "stroke-width": line.weight,
    stroke: line.stroke,
    "stroke-dasharray": line.dash,
  });
}
