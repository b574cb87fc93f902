// What the car itself tells, kept as it was told: before codes are cleared, and again after the repair.

import type { CodeState, FaultCode } from "../codes/code.ts";
import type { ParameterValues } from "../parameters/parameter-replies.ts";

/** Before codes are cleared, or after the repair. */
export type Moment = "before" | "after";

/** The conditions under which a code was stored. */
export interface FreezeFrame {
  /** "" where it is not known which code stored it. */
  readonly code: string;
  readonly values: ParameterValues;
}

export interface Evidence {
  readonly codes: readonly FaultCode[];
  /** Lists that were asked for, also where they held no code. */
  readonly answered: readonly CodeState[];
  readonly frame: FreezeFrame | null;
  /** Distances, times and warm-ups. */
  readonly status: ParameterValues;
  /** Bytes A to D of PID $01 or $41, or as they would be for what was typed; empty where not read. */
  readonly readiness: readonly number[];
  readonly readinessOf: "since-clear" | "this-drive" | "as-typed";
  readonly calibration: string;
  /** Replies of services $05 and $06 as they were pasted. */
  readonly monitorReplies: string;
  /** What was looked for and is not to be had, or was declined. */
  readonly declined: readonly EvidenceItem[];
}

export const evidenceItems = [
  "codes",
  "pending",
  "permanent",
  "frame",
  "readiness",
  "since-clear",
  "lamp",
  "calibration",
  "monitors",
] as const;
export type EvidenceItem = (typeof evidenceItems)[number];

export const noEvidence: Evidence = {
  codes: [],
  answered: [],
  frame: null,
  status: {},
  readiness: [],
  readinessOf: "since-clear",
  calibration: "",
  monitorReplies: "",
  declined: [],
};
