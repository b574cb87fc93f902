// The comparison for people: whether it is fair before anything else, then each reading in both.

import type { ComparedLiftOff, Comparison, Difference } from "../exhaust/comparing/comparison.ts";
import { asRead, inWords, quantity } from "../exhaust/terms/words.ts";
import type { Reading } from "../signal/numbers/reading.ts";
import { columns } from "./table.ts";

export function compareTable(comparison: Comparison): string {
  const sections = [
    [`Suspect: ${comparison.suspect}`, `Reference: ${comparison.reference}`, comparison.says],
    fairness(comparison),
    differences(comparison),
    ["Lift-offs", ...columns([["", "at", "delay", "air flow", "engine speed"], ...events(comparison)])],
    [`As before and after: ${comparison.repair.says}`],
  ];
  return sections.map((lines) => lines.join("\n")).join("\n\n");
}

function fairness({ fair, notKnown, matching }: Comparison): string[] {
  const cell = (value: Reading | string) => (typeof value === "string" ? value : inWords(value));
  return [
    "Fair comparison",
    ...columns(
      fair.map((f) => [`  ${f.what}`, cell(f.suspect), cell(f.reference), f.ok ? "alike" : `UNLIKE. ${f.says}`]),
    ),
    ...notKnown.map((text) => `  Not known: ${text}`),
    ...matching.map(
      ({ what, suspect, reference }) =>
        `  These match: ${what}, ${suspect.join(", ")} of the suspect and ${reference.join(", ")} of the reference.`,
    ),
  ];
}

function differences({ differences }: Comparison): string[] {
  const row = ({ reading, label, suspect, reference, ratio, difference, says }: Difference) => [
    `  ${label}`,
    inWords(asRead(reading, suspect)),
    inWords(asRead(reading, reference)),
    ratio.value === null && ratio.high === null && difference.value !== null
      ? `by ${inWords(asRead(reading, difference))}`
      : inWords(ratio),
    says,
  ];
  return ["Readings", ...columns([["", "suspect", "reference", "ratio", ""], ...differences.map(row)])];
}

function events({ events: { suspect, reference } }: Comparison): string[][] {
  const row = (side: string) => (event: ComparedLiftOff) => [
    `  ${side}`,
    quantity(event.at, "s"),
    inWords(event.delay),
    event.airFlow === null ? "-" : quantity(event.airFlow, "g/s"),
    event.engineSpeed === null ? "-" : quantity(event.engineSpeed, "1/min"),
  ];
  return [...suspect.map(row("suspect")), ...reference.map(row("reference"))];
}
