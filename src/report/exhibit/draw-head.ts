// The answer first: one sentence across the top of the sheet, and a plainer one below it.

import { ink } from "../paper/ink.ts";
import { label, tag } from "../paper/svg.ts";
import { largestThatFits, wrapAtMost } from "../paper/wrap.ts";
import type { Box } from "./page.ts";
import type { ExhibitSheet } from "./sheet.ts";

const sizes = [7.4, 6.6, 5.8, 5] as const;
const lead = 1.2;
const subSize = 3.8;

export interface Drawn {
  readonly markup: string;
  /** mm used from the top of the box. */
  readonly height: number;
  /** mm from the top of the box to where the plainer sentence begins. */
  readonly subFrom: number;
}

/** Two lines where they fit, else smaller, at last three lines. */
export function drawHead(sheet: Pick<ExhibitSheet, "headline" | "subline">, box: Box): Drawn {
  const size = largestThatFits(sheet.headline, box.width, { sizes, count: 2, weight: 600 });
  const lines = wrapAtMost(3, sheet.headline, box.width, { size, weight: 600 });
  const sub = sheet.subline === "" ? [] : wrapAtMost(2, sheet.subline, box.width, { size: subSize });
  const subTop = box.y + size * lead * lines.length + 1;
  const markup = [
    ...lines.map((line, i) => label(box.x, box.y + size * (0.8 + lead * i), line, { size, weight: 600 })),
    ...sub.map((line, i) => label(box.x, subTop + subSize * (1 + 1.25 * i), line, { size: subSize, fill: ink.soft })),
  ];
  const subFrom = subTop - box.y;
  return { markup: tag("g", {}, ...markup), height: subFrom + subSize * 1.25 * sub.length, subFrom };
}
