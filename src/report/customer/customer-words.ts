// Sentences for the customer. Each says what a finding says and no more: no trade word, no number without its bounds.

import type { Finding, FindingId, LiftOffSummary, Verdict } from "../../exhaust/terms/analysis.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import { formatReading } from "../../signal/written/reading-text.ts";

/** What the customer must know to follow the rest. */
export const setting =
  "Your car has one oxygen sensor before the catalytic converter and one after it. The signal before it should swing; the signal after it should be calm.";

const answers: Readonly<Record<Verdict, string>> = {
  "points-to":
    "In your car the signal after the converter follows the one before it. That points to the converter: it holds hardly any oxygen any more.",
  "points-away":
    "In your car the signal after the converter is calm. That points away from the converter: it still holds oxygen.",
  "cannot-say": "We cannot yet say whether your converter is worn.",
};

/** The verdict; says that nothing was judged where there is no finding. */
export function answerInPlainWords(catalyst: Finding | null): string {
  return catalyst ? answers[catalyst.verdict] : "Nothing has been judged yet.";
}

/** The lift-off test with its bounds, and what speaks against the verdict. */
export function howSure(liftOff: LiftOffSummary | null, catalyst: Finding | null): string[] {
  return [...(liftOff ? [liftOffInPlainWords(liftOff.delay)] : []), ...otherWay(catalyst)];
}

/** What speaks against the verdict, each kind of evidence once; the readings themselves are for the technician. */
function otherWay(catalyst: Finding | null): string[] {
  if (!catalyst || catalyst.verdict === "cannot-say") return [];
  const opposed = catalyst.verdict === "points-to" ? catalyst.against : catalyst.for;
  const kinds = [...new Set(opposed.map(({ reading }) => kindOf(reading)))];
  return kinds.length === 0 ? [] : [`Against it speaks ${kinds.join(", and ")}.`];
}

function kindOf(reading: string): string {
  if (reading.startsWith("liftOff")) return "the time the rear sensor took after lifting off";
  if (reading.startsWith("store")) return "the oxygen store reckoned from the whole recording";
  return reading === "by hand" ? "a check by hand" : "how far the signal after the converter swings in steady running";
}

/** How sure in everyday words: by how many tests that do not rest on one another say the same. */
export function sureness(liftOff: LiftOffSummary | null, catalyst: Finding | null): string {
  if (!catalyst) return "";
  if (catalyst.verdict === "cannot-say") return "We are not sure yet.";
  const speaks = catalyst.verdict === "points-to" ? catalyst.for : catalyst.against;
  const isTimed = speaks.some(({ reading }) => reading.startsWith("liftOff"));
  const isSteady = speaks.some(({ reading }) => !reading.startsWith("liftOff") && reading !== "by hand");
  if (isTimed && isSteady) return "We are quite sure: two different tests say the same.";
  return `We are fairly sure: one test says so${liftOff === null ? "; a second test would make it surer" : ""}.`;
}

const test = "We lifted off the accelerator. The front sensor saw air at once;";

function liftOffInPlainWords(delay: Reading): string {
  const { value, bounds } = formatReading(delay);
  if (delay.grade === "not-resolvable")
    return "The recording is too slow to time how long the converter holds oxygen. We need a faster recording before we recommend parts.";
  if (delay.grade === "at-least")
    return `${test} for ${value} the rear sensor saw none. A longer wait means that more oxygen is stored.`;
  const times = delay.count === undefined || delay.count < 2 ? "" : ` This was seen ${delay.count} times.`;
  const sure =
    delay.grade === "measured" && bounds !== ""
      ? ` (${bounds}: the true value lies there in at least 95 of 100 cases)`
      : "";
  return `${test} the rear sensor saw it ${value} later${sure}.${times} A longer wait means that more oxygen is stored.`;
}

type OtherCause = Exclude<FindingId, "catalyst" | "recording">;

const causes: Readonly<Record<OtherCause, Readonly<Record<Verdict, string>>>> = {
  "front-sensor": {
    "points-to": "The sensor before the converter looks tired. It must be put right before the converter is judged.",
    "points-away": "The sensor before the converter works as it should.",
    "cannot-say": "Whether the sensor before the converter is quick enough could not be said.",
  },
  "rear-sensor": {
    "points-to": "The sensor after the converter does not work as it should. Until it does, its calm proves nothing.",
    "points-away": "The sensor after the converter is awake and quick.",
    "cannot-say": "Whether the sensor after the converter is quick enough could not be said.",
  },
  "air-leak": {
    "points-to": "Air seems to leak in. First the leak must be repaired, then we test again.",
    "points-away": "The recording shows no sign of air leaking in.",
    "cannot-say": "Whether air leaks in could not be said from the recording.",
  },
  mixture: {
    "points-to": "The engine gets too much or too little fuel. That can damage a converter and mislead this test.",
    "points-away": "The engine gets the right amount of fuel.",
    "cannot-say": "Whether the engine gets the right amount of fuel could not be said from the recording.",
  },
  misfire: {
    "points-to": "The engine misfires now and then. If we do not cure that first, a new converter will fail too.",
    "points-away": "The recording shows no misfire.",
    "cannot-say": "Whether the engine misfires could not be said from the recording.",
  },
};

/** Causes that look like a worn converter, by what the findings say of them. */
export function otherCauses(findings: readonly Finding[]): Record<"found" | "ruledOut" | "open", string[]> {
  const said = (wanted: Verdict) =>
    findings.flatMap(({ id, verdict }) => (isOther(id) && verdict === wanted ? [causes[id][wanted]] : []));
  return { found: said("points-to"), ruledOut: said("points-away"), open: said("cannot-say") };
}

const isOther = (id: FindingId): id is OtherCause => id !== "catalyst" && id !== "recording";
