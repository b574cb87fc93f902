// Dates as people read them, in the order in force.

import { writingInForce } from "./writing.ts";

const months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"] as const;

/** An ISO 8601 instant as it stands, no zone applied: "12 Nov 2026, 10:41". Other text is handed back. */
export function dateText(instant: string | null): string {
  if (instant === null) return "not stated in the file";
  const [, year, month, day, clock] = /^(\d{4})-(\d\d)-(\d\d)(?:[T ](\d\d:\d\d))?/.exec(instant) ?? [];
  if (year === undefined || months[Number(month) - 1] === undefined) return instant;
  const date = inOrder(year, month!, day!);
  return clock === undefined ? date : `${date}, ${clock}`;
}

function inOrder(year: string, month: string, day: string): string {
  const name = months[Number(month) - 1]!;
  switch (writingInForce().dates) {
    case "May 4, 2026":
      return `${name} ${Number(day)}, ${year}`;
    case "04.05.2026":
      return `${day}.${month}.${year}`;
    case "04/05/2026":
      return `${day}/${month}/${year}`;
    case "2026-05-04":
      return `${year}-${month}-${day}`;
    default:
      return `${Number(day)} ${name} ${year}`;
  }
}

/** Now, on this machine's clock, in the form that `dateText` takes. */
export function localInstant(now: Date): string {
  const minutes = now.getTime() - now.getTimezoneOffset() * 60_000;
  return new Date(minutes).toISOString().slice(0, 16);
}
