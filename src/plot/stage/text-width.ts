// How wide a text comes out in the lanes' font, CSS pixels.

const family = '"Source Sans 3", "Segoe UI", system-ui, sans-serif';
const known = new Map<string, number>();
let context: CanvasRenderingContext2D | null = null;

/** @param weight as in CSS, 400 or 600. */
export function textWidth(text: string, size: number, weight = 400): number {
  const font = `${weight} ${size}px ${family}`;
  // Tabular figures are all as wide as a zero, so that a changing number does not shift its neighbours.
  const key = font + text.replace(/\d/g, "0");
  const found = known.get(key);
  if (found !== undefined) return found;
  if (known.size > 2000) known.clear();
  context ??= document.createElement("canvas").getContext("2d")!;
  context.font = font;
  const width = context.measureText(text.replace(/\d/g, "0")).width;
  known.set(key, width);
  return width;
}
