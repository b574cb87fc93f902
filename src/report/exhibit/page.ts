// Where things stand on the paper, in millimetres: sheet, frame, head, lanes and foot.

import type { Paper } from "./sheet.ts";

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export const right = (box: Box): number => box.x + box.width;
export const bottom = (box: Box): number => box.y + box.height;

/** Landscape. A4 as ISO 216; Letter as ANSI/ASME Y14.1 size A. */
const papers: Readonly<Record<Paper, readonly [width: number, height: number]>> = {
  A4: [297, 210],
  Letter: [279.4, 215.9],
};

/** Frame as ISO 5457: 20 mm on the left to file it, 10 mm elsewhere. */
const margin = { left: 20, other: 10 } as const;

/** ISO 7200: a title block is 180 mm wide and stands in the lower right corner. */
export const titleWidth = 180;

export interface Page {
  readonly width: number;
  readonly height: number;
  readonly frame: Box;
}

export function pageOf(paper: Paper): Page {
  const [width, height] = papers[paper];
  return {
    width,
    height,
    frame: {
      x: margin.left,
      y: margin.other,
      width: width - margin.left - margin.other,
      height: height - 2 * margin.other,
    },
  };
}
