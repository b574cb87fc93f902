// The job's row of sheets: a revision takes the place of what it revises.

import type { ExhibitRecord } from "../record/job.ts";

export interface SheetPlace {
  /** 1 for the first. */
  readonly sheet: number;
  readonly sheets: number;
  readonly revision: number;
}

/** Where a new exhibit, or a revision of `revises`, will stand. */
export function nextPlace(exhibits: readonly ExhibitRecord[], revises?: ExhibitRecord): SheetPlace {
  const row = sheetRow(exhibits);
  if (!revises) return { sheet: row.length + 1, sheets: row.length + 1, revision: 1 };
  const at = row.findIndex((sheet) => sheet.some(({ id }) => id === revises.id));
  const last = row[at]?.at(-1)?.revision ?? revises.revision;
  return at < 0
    ? { sheet: row.length + 1, sheets: row.length + 1, revision: last + 1 }
    : { sheet: at + 1, sheets: row.length, revision: last + 1 };
}

/** All revisions of each sheet, oldest first, in the order in which the sheets were first made. */
export function sheetRow(exhibits: readonly ExhibitRecord[]): ExhibitRecord[][] {
  const row: ExhibitRecord[][] = [];
  for (const exhibit of exhibits) {
    const sheet = row.find((earlier) => earlier.some(({ id }) => id === exhibit.revises));
    if (sheet) sheet.push(exhibit);
    else row.push([exhibit]);
  }
  return row;
}
