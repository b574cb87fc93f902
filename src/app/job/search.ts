// Which jobs hold the words that are searched for.

import type { JobLine } from "../../job/storage/store.ts";
import { dateText, localInstant } from "../../signal/written/date-text.ts";

/** Every word, wherever it stands in what is told of the job, whatever its case; dates as they are shown or as ISO 8601. */
export function holdsAll({ name, about, date, createdAt, changedAt }: JobLine, wanted: string): boolean {
  const days = [date, dateText(date), ...[createdAt, changedAt].flatMap((iso) => [iso.slice(0, 10), dayOf(iso)])];
  const text = [name, about, ...days].join(" ").toLowerCase();
  return wanted
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
}

/** On this machine's clock, "4 May 2026, 10:41". */
export const dayOf = (iso: string): string => dateText(localInstant(new Date(iso)));
