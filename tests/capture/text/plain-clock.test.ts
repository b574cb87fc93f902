// Clocks and dates in the languages that write the half of the day. Judge: the platform's own writing of them (Unicode CLDR).

import { describe, expect, test } from "vitest";
import { clockIn, instantIn } from "../../../src/capture/text/clock.ts";
import { csv, lasts, sensors, volts } from "../../logs/made.ts";
import { open } from "../open.ts";

// biome-ignore format: a list of languages
const languages = [
  "en", "ko", "zh", "zh-TW", "ja", "el", "ar", "fa", "he", "hi", "ta", "ne", "si", "tr", "uz", "hu", "cs", "sl", "hr", "sr", "mk", "bg",
  "uk", "ru", "sq", "sv", "nb", "fi", "lv", "lt", "nl", "de", "es", "es-MX", "it", "pt", "ca", "ga", "is", "ms", "am", "lo", "my", "mn", "af",
];
const hours = [0, 9, 12, 15];
const at = (hour: number) => new Date(Date.UTC(2026, 2, 24, hour, 12, 3));
const clockParts = { hour: "numeric", minute: "2-digit", second: "2-digit", hour12: true, timeZone: "UTC" } as const;
const written = (language: string, parts: Intl.DateTimeFormatOptions, hour: number) =>
  new Intl.DateTimeFormat(`${language}-u-nu-latn-ca-gregory`, parts).format(at(hour));

describe("as the platform writes it", () => {
  test.each(languages)("a clock: %s", (language) => {
    for (const hour of hours) {
      const cell = written(language, clockParts, hour);
      expect(clockIn(cell)?.seconds, cell).toBe(hour * 3600 + 12 * 60 + 3);
    }
  });

  test.each(languages)("a date and a clock: %s", (language) => {
    for (const hour of hours) {
      const cell = written(language, { ...clockParts, year: "numeric", month: "numeric", day: "numeric" }, hour);
      const read = (["ymd", "dmy", "mdy"] as const).map((order) => instantIn(cell, order)?.seconds);
      expect(read, cell).toContain(at(hour).getTime() / 1000);
    }
  });
});

// The Hangul halves and the signs for hours are from memory.
test.each([
  ["오전 12:12", 12 * 60],
  ["오후 3:12:03.25", 54_723.25],
  ["下午3时12分03秒", 54_723],
  ["午後3時12分", 54_720],
  ["15시 12분 3초", 54_723],
  ["am 9:12", 33_120],
  ["9:12:03 AM", 33_123],
])("%s is a clock", (cell, seconds) => expect(clockIn(cell)?.seconds).toBe(seconds));

test.each(["sa", "am", "오전", "Sampling 9:12", "9:12:03 amp", "cham 9:12:03"])("%s is none", (cell) =>
  expect(clockIn(cell)).toBeNull(),
);

test.each([
  ["오전", "오후", ""],
  ["上午", "下午", "2026/3/24 "],
  ["am", "pm", "2026-03-24 "],
  ["오전", "오후", "2026년 3월 24일 "],
  ["오전", "오후", "2026. 3. 24. "],
])("a log from %s to %s, with the date %j", async (early, late, date) => {
  const rows = Array.from({ length: 120 }, (_, i) => {
    const t = 12 * 3600 - 60 + i;
    const [h, m, s] = [Math.floor(t / 3600), Math.floor(t / 60) % 60, t % 60];
    const clock = [((h + 11) % 12) + 1, String(m).padStart(2, "0"), String(s).padStart(2, "0")].join(":");
    return [`${date}${h < 12 ? early : late} ${clock}`, ...volts(i)];
  });
  const capture = await open(csv(`Time,${sensors}`, rows));
  expect(lasts(capture, 119)).toBe(true);
  expect(capture.startedAt).toBe(date === "" ? null : "2026-03-24T11:59:00.000");
});
