// Which jobs hold the words that are searched for.

import type { JobLine } from "../../job/storage/store.ts";
import { dateText, localInstant } from "../../signal/written/date-text.ts";

/**
 * A day that is named finds its own day, whole; every other word is found wherever it stands in what is told of the job, or as
 * whole numbers in its dates as they are shown or in ISO 8601. Case does not matter.
 */
export function holdsAll({ name, about, date, createdAt, changedAt }: JobLine, wanted: string): boolean {
  const text = [name, about].join(" ").toLowerCase();
  const instants = [date, ...[createdAt, changedAt].flatMap((iso) => [iso.slice(0, 10), localInstant(new Date(iso))])];
  const dates = instants.flatMap((iso) => [iso, dateText(iso)]).map(withoutZeros);
  const { days, words } = partsOf(wanted);
  return (
    days.every((day) => holdsWhole(text, day.typed) || instants.some((iso) => isOn(iso, day))) &&
    words.every((word) => text.includes(word) || dates.some((one) => holdsWhole(one, withoutZeros(word))))
  );
}

/** On this machine's clock, "4 May 2026, 10:41". */
export const dayOf = (iso: string): string => dateText(localInstant(new Date(iso)));

/** A day as typed; null where a part of it is not said. */
interface NamedDay {
  readonly typed: string;
  readonly year: number | null;
  readonly month: number;
  readonly day: number | null;
}

const month = "(?<month>(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*)";
const year = "(?<year>\\d{4})";
const day = "(?<day>\\d{1,2})";
/** "27 March 2026", "27 Mar", "Mar 27, 2026", "Mar 27", "March 2026". */
const forms = [`${day}\\s+${month}(?:,?\\s+${year})?`, `${month}\\s+${day}(?:,?\\s+${year})?`, `${month}\\s+${year}`];
const months = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/** The days that are named, and the words that are left. */
function partsOf(wanted: string): { days: NamedDay[]; words: string[] } {
  const days: NamedDay[] = [];
  const rest = forms.reduce(
    (text, form) =>
      text.replace(new RegExp(`(?<!\\S)${form}(?=[\\s,]|$)`, "g"), (typed, ...found) => {
        days.push(named(typed, found.at(-1) as Record<string, string | undefined>));
        return " ";
      }),
    wanted.toLowerCase(),
  );
  return { days, words: rest.split(/[\s,]+/).filter((word) => word !== "") };
}

const named = (typed: string, said: Record<string, string | undefined>): NamedDay => ({
  typed,
  year: said.year ? Number(said.year) : null,
  month: 1 + months.indexOf(said.month!.slice(0, 3)),
  day: said.day ? Number(said.day) : null,
});

function isOn(iso: string, wanted: NamedDay): boolean {
  const [year, month, day] = iso.slice(0, 10).split("-").map(Number);
  return month === wanted.month && (wanted.year ?? year) === year && (wanted.day ?? day) === day;
}

/** No number at an end of it goes on in the text. */
function holdsWhole(text: string, part: string): boolean {
  const written = part.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
  const [before, after] = [/^\d/.test(part) ? "(?<!\\d)" : "", /\d$/.test(part) ? "(?!\\d)" : ""];
  return new RegExp(`${before}${written}${after}`).test(text);
}

const withoutZeros = (text: string): string => text.toLowerCase().replace(/(?<!\d)0+(?=\d)/g, "");
