// What is handed over, before it is written.

import type { Comparison } from "../../exhaust/comparing/comparison.ts";
import type { Analysis } from "../../exhaust/terms/analysis.ts";
import type { Proof } from "../../job/proof/proof.ts";
import type { ExhibitRecord, Job } from "../../job/record/job.ts";
import type { CustomerSheet } from "../customer/customer-sheet.ts";

export interface HandOverFacts {
  readonly job: Job;
  /** Of the recording judged; null where none was. */
  readonly analysis: Analysis | null;
  /** Before and after the repair; null where no two were chosen and compared. */
  readonly comparison: Comparison | null;
  /** What is found now. */
  readonly sheet: CustomerSheet;
  readonly proof: Proof;
  /** Latest revision of each exhibit. */
  readonly exhibits: readonly ExhibitRecord[];
  /** Recordings that are in the folder; the others are named as not at hand. */
  readonly atHand: ReadonlySet<string>;
  readonly now: string;
}
