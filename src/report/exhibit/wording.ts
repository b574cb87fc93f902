// What the sheet says of itself until the user says it better: headline, conditions, dates.

import type { Finding, FindingReason, LiftOff, Span } from "../../exhaust/terms/analysis.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import { formatRange, formatReading, formatSpan, formatValue } from "../../signal/written/reading-text.ts";
import type { Condition, Conditions } from "./sheet.ts";

export interface HeadlineFacts {
  /** The lift-off shown, if any. */
  readonly liftOff: LiftOff | null;
  /** The finding in one sentence, where there is one. */
  readonly finding: string | null;
  readonly view: Span;
}

/** The lift-off's delay where the view shows one that counts, else the finding, else what the picture shows. */
export function proposeHeadline({ liftOff, finding, view }: HeadlineFacts): string {
  if (liftOff?.setAside === null) return liftOffSentence(liftOff.delay);
  if (finding) return leadOf(finding);
  return `Front and rear oxygen sensor, ${spanText(view)}`;
}

/**
 * The verdict, where what is shown supports it and nothing shown stands against it: a lift-off that counts where lift-offs speak
 * for it, else a view that holds a stretch that does. "" else. Beside a reference it says that it is the suspect's.
 */
export function verdictLine(
  catalyst: Finding | null,
  { liftOff, view, isCompared }: Pick<HeadlineFacts, "liftOff" | "view"> & { readonly isCompared?: boolean },
): string {
  if (!catalyst || catalyst.verdict === "cannot-say") return "";
  const isTo = catalyst.verdict === "points-to";
  const isShown = ({ at }: FindingReason): boolean =>
    at?.kind === "lift-offs"
      ? liftOff?.setAside === null
      : at?.kind === "stretch" && at.from < view.to && at.to > view.from && liftOff === null;
  const [supports, opposes] = isTo ? [catalyst.for, catalyst.against] : [catalyst.against, catalyst.for];
  if (!supports.some(isShown) || opposes.some(isShown)) return "";
  return `${isCompared ? "The suspect" : "This"} points ${isTo ? "to" : "away from"} the catalyst.`;
}

/** A headline is read at a glance, letters. */
const headlineLength = 180;

/** The first sentences of a longer text, as many as make a headline; at least one. */
function leadOf(text: string): string {
  const [first = "", ...rest] = text.split(/(?<=[.!?]) /);
  let lead = first;
  for (const sentence of rest) {
    if (lead.length + 1 + sentence.length > headlineLength) break;
    lead += ` ${sentence}`;
  }
  return lead;
}

function liftOffSentence(delay: Reading): string {
  const { value } = formatReading(delay);
  if (delay.grade === "not-resolvable")
    return "Lifting off the throttle: this recording cannot time the rear sensor against the front.";
  if (delay.grade === "at-least")
    return `Lifting off the throttle: for ${value} after the front, the rear sensor sees no air.`;
  return `Lifting off the throttle: the rear sensor sees air ${value} after the front.`;
}

/** "25.0 … 37.0 s" */
const spanText: (span: Span) => string = formatSpan;

export const sensorsSubline =
  "The front sensor (thin line) sits before the catalytic converter, the rear sensor (thick line) after it.";

/** "4600 rpm, air 11.2 g/s, coolant 91 °C"; over a view "790 … 4050 rpm, …"; what is not known is left out. */
export function conditionsText({ engineSpeed, airFlow, coolant }: Conditions): string {
  const said = (name: string, condition: Condition, unit: string, step?: number) => {
    if (condition === null) return "";
    return (
      name + (typeof condition === "number" ? formatValue(condition, unit, step) : formatRange(condition, unit, step))
    );
  };
  const parts = [
    said("", engineSpeed, "1/min", typeof engineSpeed === "number" ? 1 : 10),
    said("air ", airFlow, "g/s", typeof airFlow === "number" ? undefined : 1),
    said("coolant ", coolant, "degC", 1),
  ];
  return parts.filter((part) => part !== "").join(", ") || "not recorded";
}
