// A column's heading taken apart: its name and its unit.

import { isUnit } from "../meaning/quantities.ts";
import { mendedText } from "./mended-text.ts";

export interface ColumnTitle {
  readonly name: string;
  readonly header: string;
  readonly fileUnit: string;
}

export function titlesOf(names: readonly string[], units: readonly string[], width: number): ColumnTitle[] {
  const seen = new Map<string, number>();
  return Array.from({ length: width }, (_, i) => {
    const header = names[i] ?? "";
    const title = titleOf(header);
    const unitBelow = (units[i] ?? "").replace(/^[[(]\s*(.*?)\s*[\])]$/, "$1").replace(/^[-–]$/, "");
    const name = title.name || `Column ${i + 1}`;
    const times = (seen.get(name) ?? 0) + 1;
    seen.set(name, times);
    return { name: times > 1 ? `${name} (${times})` : name, header, fileUnit: unitBelow || title.fileUnit };
  });
}

export function plainTitles(width: number): ColumnTitle[] {
  return Array.from({ length: width }, (_, i) => ({ name: `Column ${i + 1}`, header: "", fileUnit: "" }));
}

const longest = 120; // characters of a name; more is no name

/** "Front O2 [mV]", "Front O2 (mV)", "t/s", "Speed km/h", "Speed in km/h", "Speed, km/h": name and unit apart. */
export function titleOf(header: string): { readonly name: string; readonly fileUnit: string } {
  const text = mendedText(header)
    .replace(/\s+/g, " ")
    .trim()
    .replace(/^'(?=[=+@\uff1d\uff0b\uff0d\uff20-])/, "")
    .slice(0, longest); // an apostrophe guards against formulas
  const bracket = /^(.+?)\s*[[({<]\s*([^[\](){}<>]{0,20}?)\s*[\])}>]$/.exec(text);
  if (bracket?.[1] && (isQuotient(bracket[2]!) || (text.endsWith("]") && !/\d/.test(bracket[2]!)))) {
    return { name: bracket[1].replace(/\s*\/$/, ""), fileUnit: bracket[2]! };
  }
  const quotient = /^(?:(.*?)(?:\s+in\s+|\s+-\s+|\s*[\s_/,;:]\s*))?([^\s_,;:/]+\/[^\s_,;:]+)$/i.exec(text);
  if (quotient && isQuotient(quotient[2]!)) return { name: quotient[1] || text, fileUnit: quotient[2]! };
  for (const mark of [/\s*\/\s*/, /\s*,\s*/, /\s*;\s*/, /\s*:\s*/, /\s+in\s+/i, /\s+-\s+/]) {
    const cut = text.search(mark);
    if (cut <= 0) continue;
    const unit = text.slice(cut).replace(mark, "");
    if (isUnit(unit)) return { name: text.slice(0, cut), fileUnit: unit };
  }
  return { name: text, fileUnit: trailingUnit(text) };
}

/** A unit over another, known or at least something per time: its last part alone would read as a time. */
const isQuotient = (text: string): boolean =>
  isUnit(text) ||
  /^(m?[gl]|[kcm]?m|kg|lbs?|gal|rev|rad|deg|°|1|counts?|pulses?)[²³]?\/(s|sec|min|h|hr)[²^2]*$/i.test(text);

/** "time_ms", "Front V": the name keeps its words, the unit is read from them. Single letters that name things are no units here. */
function trailingUnit(text: string): string {
  const last = /[\s_]([^\s_]+)$/.exec(text)?.[1] ?? "";
  if (/^(v|s|%)$/i.test(last)) return last;
  return last.length > 1 && isUnit(last) && !isAlsoWord.test(last) ? last : "";
}

/** Units that end a name as words, too: a least value, a count, a day, a mixture. */
const isAlsoWord =
  /^(mins?|counts?|ratio|equiv|eqratio|lambda|afr|a[/:]f|hours?|heures?|horas?|uur|stunden?|days?|tage?|jours?|dias?|minut\w*|second[eo]s?|grams?|gramm|atm|amps?|mb|hr|kn|kt|pa|kg|mg)$/i;
