// How files written alike were read last time, kept in the browser: the same question is not asked twice.

import type { ReadChoices } from "../../capture/model/reader.ts";

const place = "tracewright-choices";
const most = 50;

type Kept = readonly (readonly [likeness: string, choices: ReadChoices])[];

/** @returns null where nothing alike was read before. */
export function rememberedChoices(likeness: string): ReadChoices | null {
  return kept().find(([known]) => known === likeness)?.[1] ?? null;
}

/** The member of an archive belongs to one file and is not remembered. That nothing is to be changed is an answer too. */
export function rememberChoices(likeness: string, { member: _, ...choices }: ReadChoices): void {
  if (likeness === "") return;
  const all: Kept = [[likeness, choices], ...kept().filter(([known]) => known !== likeness)];
  try {
    localStorage.setItem(place, JSON.stringify(all.slice(0, most)));
  } catch {
    // Storage is denied: the question is asked again next time.
  }
}

function kept(): Kept {
  try {
    const parsed: unknown = JSON.parse(localStorage.getItem(place) ?? "[]");
    return Array.isArray(parsed) ? (parsed as Kept) : [];
  } catch {
    return [];
  }
}
