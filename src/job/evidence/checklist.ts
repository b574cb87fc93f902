// The checklist of what the car tells, before codes are cleared and again after the repair: what is saved, what was declined, what
// is still open.

import { monitorsInReplies } from "../monitors/monitor-replies.ts";
import { catalystComplete, readinessOf } from "../parameters/readiness.ts";
import type { Evidence, EvidenceItem, Moment } from "./evidence.ts";

export interface CheckLine {
  readonly item: EvidenceItem;
  readonly name: string;
  /** Why it must be saved now: before codes are cleared, or after the repair. */
  readonly because: string;
  readonly state: "saved" | "declined" | "open";
}

interface Rule {
  readonly name: string;
  readonly because: string;
  /** What it is worth after the repair. */
  readonly after: string;
  has(evidence: Evidence): boolean;
}

/** What clearing does: common practice; after it, results of service $06 may read zeros. */
const rules: Readonly<Record<EvidenceItem, Rule>> = {
  codes: {
    name: "Stored codes",
    because: "Clearing erases them.",
    after: "A code that came back: the fault is still there.",
    has: ({ answered, codes }) => answered.includes("stored") || codes.some(({ states }) => states.includes("stored")),
  },
  pending: {
    name: "Pending codes",
    because: "Clearing erases them, and with them the fault that has shown once.",
    after: "A fault that has shown once since the repair stands here first.",
    has: ({ answered, codes }) =>
      answered.includes("pending") || codes.some(({ states }) => states.includes("pending")),
  },
  permanent: {
    name: "Permanent codes",
    because: "They stay until the car's own test passes: proof after the repair.",
    after: "They go by themselves once the car's own test has passed.",
    has: ({ answered, codes }) =>
      answered.includes("permanent") || codes.some(({ states }) => states.includes("permanent")),
  },
  frame: {
    name: "Freeze frame",
    because: "The only record of when it happened. Clearing destroys it.",
    after: "Only where a code came back: when that happened.",
    has: ({ frame }) => frame !== null,
  },
  readiness: {
    name: "Readiness",
    because: "Shows whether the car has finished its tests. Clearing sets them all back.",
    after: "Shows whether the car's own catalyst test has finished since.",
    has: ({ readiness }) => readiness.length === 4,
  },
  "since-clear": {
    name: "Distance and warm-ups since clear",
    because: "Shows whether somebody cleared codes shortly before.",
    after: "Shows how far it was driven since: little driven proves little.",
    has: ({ status }) => status.distanceSinceClear !== undefined && status.warmUps !== undefined,
  },
  lamp: {
    name: "Distance or time with the lamp on",
    because: "How long it was driven so.",
    after: "Shows whether the lamp has come on again.",
    has: ({ status }) => status.distanceWithLamp !== undefined || status.timeWithLamp !== undefined,
  },
  calibration: {
    name: "Calibration ID",
    because: "Decides whether newer software is known.",
    after: "Shows whether the software was changed with the repair.",
    has: ({ calibration }) => calibration.trim() !== "",
  },
  monitors: {
    name: "Monitor results",
    because: "How far the car's own catalyst test was from its limit. Clearing may set them to zero.",
    after: "How far the car's own catalyst test is from its limit now.",
    has: ({ monitorReplies }) => monitorsInReplies(monitorReplies).results.length > 0,
  },
};

export function checklist(evidence: Evidence, moment: Moment = "before"): CheckLine[] {
  return (Object.entries(rules) as [EvidenceItem, Rule][]).map(([item, { name, because, after, has }]) => ({
    item,
    name,
    because: moment === "before" ? because : after,
    state: has(evidence) ? "saved" : evidence.declined.includes(item) ? "declined" : "open",
  }));
}

/** What clearing would destroy now; empty where all is saved or declined. */
export const openItems = (evidence: Evidence): CheckLine[] =>
  checklist(evidence).filter(({ state }) => state === "open");

/**
 * Little driven since codes were cleared: then "no code" is no proof (common practice; ten warm-ups and 100 km are own choices).
 */
export function lateClearing({ status }: Evidence): string | null {
  const { warmUps, distanceSinceClear } = status;
  const isEarly =
    (warmUps !== undefined && warmUps < 10) || (distanceSinceClear !== undefined && distanceSinceClear < 100);
  if (!isEarly) return null;
  return "Codes were cleared not long ago: that no code stands there proves nothing.";
}

/** Whether the car's own catalyst test has finished; null where it is not told. */
export const monitorFinished = ({ readiness, readinessOf: of }: Evidence): boolean | null =>
  catalystComplete(readinessOf(readiness, of === "this-drive" ? 0x41 : 0x01));
