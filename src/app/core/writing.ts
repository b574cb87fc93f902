// How numbers and dates are written on this machine: chosen once, kept in the browser; what was not chosen follows the browser's
// own language.

import { type Accessor, createSignal } from "solid-js";
import { dateOrders, decimalMarks, plainWriting, type Writing, writeAs } from "../../signal/written/writing.ts";

export interface WritingState {
  /** A new object with every change: what shows numbers is drawn anew by it, and what tells them is measured anew. */
  readonly writing: Accessor<Writing>;
  chooseWriting(part: Partial<Writing>): void;
}

const place = "tracewright-units";

export const writingChoices: { readonly [Kind in keyof Writing]: readonly Writing[Kind][] } = {
  speed: ["km/h", "mph"],
  temperature: ["degC", "degF"],
  pressure: ["kPa", "inHg", "psi"],
  airFlow: ["g/s", "lb/min"],
  decimal: decimalMarks,
  dates: dateOrders,
};

export function createWriting(): WritingState {
  const kept = keptChoice();
  const [writing, setWriting] = createSignal<Writing>({ ...plainWriting, ...asLanguage(navigator.language), ...kept });
  writeAs(writing());
  let chosen = kept;
  return {
    writing,
    chooseWriting(part) {
      chosen = { ...chosen, ...part };
      const next = { ...writing(), ...part };
      writeAs(next);
      setWriting(next);
      try {
        localStorage.setItem(place, JSON.stringify(chosen));
      } catch {
        // storage is denied: the choice lasts as long as the page
      }
    },
  };
}

/** Decimal mark and order of a date in a language, as the browser's own tables have them. */
export function asLanguage(language: string): Pick<Writing, "decimal" | "dates"> {
  const decimal = new Intl.NumberFormat(language).formatToParts(0.5).find(({ type }) => type === "decimal")?.value;
  const parts = new Intl.DateTimeFormat(language, { dateStyle: "short" }).formatToParts(new Date(2026, 4, 4));
  const [first, second, ...rest] = parts.filter(({ type }) => ["day", "month", "year"].includes(type));
  const mark = parts.find(({ type }) => type === "literal")?.value.trim();
  const isEnglish = language.toLowerCase().startsWith("en");
  return { decimal: decimal === "," ? "," : ".", dates: rest.length === 0 ? plainWriting.dates : order() };

  function order(): Writing["dates"] {
    if (first?.type === "year") return "2026-05-04";
    if (first?.type === "month" && second?.type === "day") return "May 4, 2026";
    if (isEnglish) return "4 May 2026";
    return mark === "/" ? "04/05/2026" : "04.05.2026";
  }
}

/** Only what this program offers; anything else follows the language. */
function keptChoice(): Partial<Writing> {
  try {
    const kept = JSON.parse(localStorage.getItem(place) ?? "{}") as Record<string, unknown>;
    const names = Object.keys(writingChoices) as (keyof Writing)[];
    const known = names.filter((name) => (writingChoices[name] as readonly unknown[]).includes(kept[name]));
    return Object.fromEntries(known.map((name) => [name, kept[name]]));
  } catch {
    return {};
  }
}
