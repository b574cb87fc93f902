// The sheet's inks and line weights. Always on a light ground, whatever the theme of the screen.
//
// Weights in mm are from the series of ISO 128-2 (0.13, 0.18, 0.25, 0.35, 0.5, 0.7), a wide line twice a narrow one or
// more. Front and rear colours are the vermillion and the blue of Okabe & Ito's colour-blind-safe palette, the first
// darkened for thin lines on white.

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

/** A reference lies behind, dashed (ISO 128-2 line 02) and paler. */
export const reference = { dash: "2.4 1.2", opacity: 0.55 } as const;

/** A recording of the same run in one lane with this one: dotted (ISO 128-2 line 07), as dark as the rest. */
export const companion = { dash: "0.4 0.9" } as const;

/** What a trace's line is broken by; undefined: drawn through. */
export function dashOf(trace: { readonly reference?: boolean; readonly companion?: boolean }): string | undefined {
  return trace.reference ? reference.dash : trace.companion ? companion.dash : undefined;
}

export const typeface = "'Source Sans 3', 'Source Sans Pro', 'Segoe UI', sans-serif";
