// The frame of the sheet with its centring marks, as ISO 5457 draws them.

import { ink, weights } from "../paper/ink.ts";
import { stroke, tag } from "../paper/svg.ts";
import { bottom, type Page, right } from "./page.ts";

/** A centring mark begins this far outside the frame and ends this far inside. */
const outside = 5;
const inside = 2.5;

export function drawFrame({ frame }: Page): string {
  const midX = frame.x + frame.width / 2;
  const midY = frame.y + frame.height / 2;
  const mark = (from: readonly [number, number], to: readonly [number, number]) =>
    stroke(from, to, { weight: weights.frame });
  return tag(
    "g",
    { fill: "none", stroke: ink.line },
    tag("rect", { ...frame, "stroke-width": weights.frame }),
    mark([midX, frame.y - outside], [midX, frame.y + inside]),
    mark([midX, bottom(frame) + outside], [midX, bottom(frame)]),
    mark([frame.x - outside, midY], [frame.x + inside, midY]),
    mark([right(frame) + outside, midY], [right(frame) - inside, midY]),
  );
}
