// Where things lie within the strip, px.

import { gutter, margin } from "../stage/layout.ts";

/** Stretches are named above it, lines drawn below. */
export const linesTop = 34;
export const inset = 5;

export const plotWidth = (width: number): number => Math.max(0, width - gutter - margin);
