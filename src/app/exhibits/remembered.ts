// Small habits of a workshop that need not be typed again: who draws its exhibits, its name on the customer's sheet, its paper.

import type { Paper } from "../../report/exhibit/sheet.ts";

const keys = {
  technician: "tracewright.drawn-by",
  workshop: "tracewright.workshop",
  paper: "tracewright.paper",
} as const;

/** "" for nothing; nothing is remembered where the browser keeps no storage. */
export function remembered(what: "technician" | "workshop"): string {
  return kept(what) ?? "";
}

export const rememberedPaper = (): Paper => (kept("paper") === "Letter" ? "Letter" : "A4");

export function remember(what: keyof typeof keys, text: string): void {
  try {
    localStorage.setItem(keys[what], text);
  } catch {
    // A convenience only.
  }
}

function kept(what: keyof typeof keys): string | null {
  try {
    return localStorage.getItem(keys[what]);
  } catch {
    return null;
  }
}
