// The plain way to tell how much of a box is taken, one after the other: the judge of the faster one.

import { type Box, overlap } from "../../src/drawing/boxes.ts";

/** Area of `box` that all of these take; what two take counts twice. */
export const overlapWith = (taken: readonly Box[]) => (box: Box) =>
  taken.reduce((sum, one) => sum + overlap(box, one), 0);
