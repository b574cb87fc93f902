// Writes the `d` of an SVG path in few bytes.

import type { Pen } from "../../drawing/paths.ts";

/** Hundredths of a millimetre. */
const grain = 100;

/**
 * A pen that writes the `d` of an SVG path in steps of 0.01 mm from point to point, and leaves out steps of no length:
 * a long dense trace takes a few bytes per column.
 */
export function compactPen(): Pen & { text(): string } {
  const parts: string[] = [];
  let [lastX, lastY] = [0, 0];
  let isFresh = false;
  const step = (x: number, y: number): readonly [number, number] => {
    const [newX, newY] = [Math.round(x * grain), Math.round(y * grain)];
    const by = [newX - lastX, newY - lastY] as const;
    [lastX, lastY] = [newX, newY];
    return by;
  };
  return {
    moveTo(x, y) {
      [lastX, lastY] = [0, 0];
      parts.push(`M${pair(step(x, y))}l`);
      isFresh = true;
    },
    lineTo(x, y) {
      const by = step(x, y);
      if (by[0] === 0 && by[1] === 0 && !isFresh) return;
      parts.push(isFresh ? pair(by) : spaced(pair(by)));
      isFresh = false;
    },
    text: () => parts.join(""),
  };
}

/** A minus sign parts two numbers by itself. */
const spaced = (text: string): string => (text.startsWith("-") ? text : ` ${text}`);
const pair = ([x, y]: readonly [number, number]): string => short(x) + spaced(short(y));

/** 12 -> ".12", -5 -> "-.05", 250 -> "2.5"; by whole numbers, for a trace has thousands. */
function short(hundredths: number): string {
  const size = Math.abs(hundredths);
  const whole = Math.floor(size / grain);
  const rest = size % grain;
  const sign = hundredths < 0 ? "-" : "";
  if (rest === 0) return sign + whole;
  const digits = rest % 10 === 0 ? rest / 10 : rest < 10 ? `0${rest}` : rest;
  return `${sign}${whole === 0 ? "" : whole}.${digits}`;
}
