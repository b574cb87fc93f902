// A known-good trace on the shelf: what it is, and who says so.

import type { Bank } from "../../capture/model/capture.ts";
import type { ReadChoices } from "../../capture/model/reader.ts";
import type { Corrections } from "../../capture/model/take.ts";
import type { Comparable } from "../../exhaust/comparing/comparison.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";

export const shelfVersion = 1;

/** Who says what of which car; all free text. */
export interface ShelfWords {
  readonly name: string;
  readonly vehicleFamily: string;
  /** As typed; `litresOf` reads it. */
  readonly engineSize: string;
  readonly sensorKind: string;
  readonly catalystPosition: string;
  readonly conditions: string;
  readonly saidBy: string;
  readonly because: string;
}
export const shelfWords = [
  "name",
  "vehicleFamily",
  "engineSize",
  "sensorKind",
  "catalystPosition",
  "conditions",
  "saidBy",
  "because",
] as const satisfies readonly (keyof ShelfWords)[];

export interface ShelfTrace extends ShelfWords {
  readonly version: typeof shelfVersion;
  readonly id: string;
  /** ISO 8601. */
  readonly keptAt: string;
  readonly isSimulated: boolean;
  /** SHA-256 of the file: names it in the capture store. */
  readonly captureId: string;
  readonly fileName: string;
  readonly choices: ReadChoices;
  readonly bank: Bank;
  /** Absent: none. */
  readonly corrections?: Corrections;
  /** The part that is known good; null: all of it. */
  readonly span: Span | null;
  /** Measured when it was kept, so that choosing it needs no samples. */
  readonly comparable: Comparable;
}

/** Traces whose words hold every word of the search, in any case. */
export function searchShelf<T extends ShelfWords>(traces: readonly T[], search: string): readonly T[] {
  const wanted = search.toLowerCase().split(/\s+/).filter(Boolean);
  return traces.filter((trace) => {
    const words = shelfWords
      .map((key) => trace[key])
      .join(" ")
      .toLowerCase();
    return wanted.every((word) => words.includes(word));
  });
}
