// Two small habits of a workshop that need not be typed again: its name on the sheet, and its paper.

import type { Paper } from "../../report/exhibit/sheet.ts";

const drawnByKey = "tracewright.drawn-by";
const paperKey = "tracewright.paper";

/** Nothing is remembered where the browser keeps no storage. */
function kept(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

export const rememberedName = (): string => kept(drawnByKey) ?? "";

export const rememberedPaper = (): Paper => (kept(paperKey) === "Letter" ? "Letter" : "A4");

export function remember(drawnBy: string, paper: Paper): void {
  try {
    localStorage.setItem(drawnByKey, drawnBy);
    localStorage.setItem(paperKey, paper);
  } catch {
    // A convenience only.
  }
}
