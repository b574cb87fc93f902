// The sheet's inks and line weights. Always on a light ground, whatever the theme of the screen.
//
// Weights in mm are from the series of ISO 128-2 (0.13, 0.18, 0.25, 0.35, 0.5, 0.7), a wide line twice a narrow one or
// more. Front and rear colours are the vermillion and the blue of Okabe & Ito's colour-blind-safe palette, the first
// darkened for thin lines on white.

import type { LineLayer } from "../../drawing/layer.ts";

export const ink = {
  paper: "#fff",
  line: "#1d2329",
  soft: "#4b5560",
  hair: "#a9a498",
  grid: "#e4e0d6",
  shade: "#f1e6cf",
  front: "#c24e00",
  rear: "#0072b2",
  other: "#4b5560",
} as const;

export const weights = {
  frame: 0.7,
  block: 0.35,
  cell: 0.18,
  dimension: 0.25,
  extension: 0.18,
  grid: 0.18,
  front: 0.25,
  rear: 0.7,
  other: 0.35,
} as const;

/** mm */
export const weightOf = ({ look, isThin }: Pick<LineLayer, "look" | "isThin">): number =>
  isThin ? weights.cell : weights[look];

/** What lies behind is paler. */
export const behind = { opacity: 0.55 } as const;

/** ISO 128-2 lines 02 and 07, mm. */
const dashes = { dashed: "2.4 1.2", dotted: "0.4 0.9" } as const;

/** What a line is broken by; undefined: drawn through. */
export const dashOf = ({ stroke }: Pick<LineLayer, "stroke">): string | undefined => stroke && dashes[stroke];

/** 8 pt in mm: no text on a paper is smaller. */
export const smallest = 2.85;

export const typeface = "'Source Sans 3', 'Source Sans Pro', 'Segoe UI', sans-serif";
