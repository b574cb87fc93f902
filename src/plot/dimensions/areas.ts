// Where a hand takes hold of a dimension: its ends, its line, its text. Px.

import type { Box } from "../../drawing/boxes.ts";
import type { LaidOut } from "./dimension-layout.ts";

/** A little over 44 px, so that rounding never makes it less. */
const target = 45;

/** At least 44 px each way; where the ends are close, each reaches outwards so that both can be taken. */
export function gripArea(laid: LaidOut, part: "from" | "to", along: "x" | "y"): Box {
  const across = along === "x" ? "y" : "x";
  const [own, other] = [laid[part][along], laid[part === "from" ? "to" : "from"][along]];
  const isFirst = own < other || (own === other && part === "from");
  const half = target / 2;
  const inwards = Math.min(half, Math.abs(own - other) / 2);
  const [start, end] = isFirst ? [own - target + inwards, own + inwards] : [own - inwards, own + target - inwards];
  const [low, high] = [laid[part][across], laid.place].sort((a, b) => a - b) as [number, number];
  const spare = Math.max(12, (target - (high - low)) / 2);
  const [low2, high2] = [low - spare, high + spare];
  if (along === "x") return { left: start, right: end, top: low2, bottom: high2 };
  return { left: low2, right: high2, top: start, bottom: end };
}

export function lineArea(laid: LaidOut, kind: "time" | "level"): Box {
  const points = laid.geometry.lines.flatMap(({ from, to }) => [from, to]);
  const [xs, ys] = [points.map((point) => point.x), points.map((point) => point.y)];
  const half = target / 2;
  const [padX, padY] = kind === "time" ? [0, half] : [half, 0];
  return {
    left: Math.max(-20, Math.min(...xs) - padX),
    right: Math.min(9999, Math.max(...xs) + padX),
    top: Math.min(...ys) - padY,
    bottom: Math.max(...ys) + padY,
  };
}

export function textArea(box: Box): Box {
  const pad = Math.max(0, (target - (box.bottom - box.top)) / 2);
  return { left: box.left, right: box.right, top: box.top - pad, bottom: box.bottom + pad };
}
