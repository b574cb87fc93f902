// In which unit a time in plain numbers counts, and from where.

import type { Seconds } from "../../signal/numbers/units.ts";
import type { Words } from "../../signal/written/words.ts";
import { conversionOf } from "../meaning/quantities.ts";
import { wordsOf } from "../meaning/roles.ts";
import type { ColumnTitle } from "./titles.ts";

/** Day number of 1970-01-01: of spreadsheets 25569, of proleptic day counts from year 0 719529, of Julian days 2440587.5; 0 where days count from the start. */
export function zeroDay(first: number): number {
  if (first > 2_400_000 && first < 2_500_000) return 2_440_587.5;
  if (first > 25_569 && first < 80_000) return 25_569;
  return first > 719_529 && first < 770_000 ? 719_529 : 0;
}

/** Units of 100 ns, counted from 1601-01-01 or from 0001-01-01 (both in UTC's calendar): their number at 1970-01-01. */
export function zeroTick(first: number): number {
  if (first > 1.2e17 && first < 1.6e17) return 116_444_736_000_000_000;
  return first > 6.1e17 && first < 6.6e17 ? 621_355_968_000_000_000 : 0;
}

interface TimeUnit {
  readonly unit: Seconds;
  readonly sure: boolean;
  readonly assumed: Words | undefined;
}

const sure = (unit: Seconds): TimeUnit => ({ unit, sure: true, assumed: undefined });

/** Seconds in one unit of a number column: as written, as its name says, or as its numbers suggest. */
export function unitOfTime(title: ColumnTitle, inside: string, values: readonly number[]): TimeUnit {
  const first = Math.abs(values[0] ?? 0);
  if (zeroTick(first) > 0) return sure(1e-7);
  const byMagnitude = first > 8e17 ? 1e-9 : first > 8e14 ? 1e-6 : first > 8e11 ? 1e-3 : null;
  const written = title.fileUnit || inside;
  if (written !== "" && conversionOf(written).unit === "s") {
    const { times, over } = conversionOf(written);
    if ((first * times) / over < 1e11) return sure(times / over);
  }
  if (byMagnitude !== null) return sure(byMagnitude);
  const words = wordsOf(`${title.name} ${title.fileUnit}`);
  if (/\b(ms|msecs?|millis\w*|milisegundos)\b/.test(words)) return sure(1e-3);
  if (/\b(us|usecs?|micros\w*)\b/.test(words)) return sure(1e-6);
  if (/\b(ns|nsecs?|nanos\w*)\b/.test(words)) return sure(1e-9);
  if (/\b(minutes?|minuten)\b/.test(words)) return sure(60);
  if (/\b(seconds?|secs?|s|sek\w*|secondes?|segundos?)\b/.test(words)) return sure(1);
  if (first > 8e8 && first < 5e9) return sure(1);
  return unitByStep(values, /\b(date|day|days|datum|serial|excel)\b/.test(words));
}

function unitByStep(values: readonly number[], saysDay: boolean): TimeUnit {
  // Rows may have been shuffled: the steps are those of their times in order.
  const ordered = Float64Array.from(values).sort();
  const steps = Array.from(ordered.subarray(1))
    .map((value, i) => value - ordered[i]!)
    .filter((step) => step > 0)
    .sort((a, b) => a - b);
  const step = steps[Math.floor(steps.length / 2)] ?? 1;
  if (zeroDay(values[0] ?? 0) > 2e6 && step < 0.5)
    return { unit: 86400, sure: true, assumed: "time read as Julian days" };
  if (saysDay || isDayFraction(values[0] ?? 0, step)) return { unit: 86400, sure: true, assumed: "time read as days" };
  const whole = values.every(Number.isInteger);
  if (whole && step >= 5000)
    return { unit: 1e-6, sure: false, assumed: "time has no unit; read as microseconds, as its steps are so large" };
  if (whole && step >= 5)
    return {
      unit: 1e-3,
      sure: true,
      assumed: "time has no unit; read as milliseconds, as its steps are whole and large",
    };
  // Nobody logs a sensor that seldom: the numbers count something shorter.
  if (step >= 4)
    return {
      unit: 1,
      sure: false,
      assumed: [
        "time has no unit; read as seconds, which makes one row every ",
        { value: step, unit: "s" },
        ": doubtful, it may count milliseconds",
      ],
    };
  return { unit: 1, sure: true, assumed: "time has no unit; read as seconds" };
}

/** Days of a spreadsheet: a serial number of recent years, or below 1, in steps that are a usual part of a second and no round decimal. */
function isDayFraction(first: number, step: number): boolean {
  const inSeconds = step * 86400;
  const usual = [0.01, 0.02, 0.05, 0.1, 0.2, 0.25, 0.5, 1, 2, 5].some((part) => Math.abs(inSeconds / part - 1) < 0.02);
  const round = Math.abs(Math.log10(step) - Math.round(Math.log10(step))) < 1e-3;
  if (first > 20_000 && first < 80_000) return step < 2e-3;
  return first >= 0 && first < 1 && step < 1e-3 && usual && !round;
}
