// Kinds of odd logs, made by rule, and what a careful colleague would make of each.

import type { Capture } from "../../src/capture/model/capture.ts";
import { countOf } from "../../src/signal/series/series.ts";
import { openBytes } from "../capture/open.ts";
import type { Random } from "../reference/recorders.ts";
import { kindsOfContent } from "./kinds-of-content.ts";
import { kindsOfHeader } from "./kinds-of-header.ts";
import { kindsOfTime } from "./kinds-of-time.ts";
import {
  clock,
  count,
  csv,
  has,
  type Kind,
  lasts,
  type Made,
  type Outcome,
  pick,
  says,
  sensors,
  two,
  volts,
} from "./made.ts";

/** Numbers above the table that speak of other things: no rate is taken from them. */
function otherNumbers(next: Random): Made {
  const line = pick(next, [
    "Report covers the period: 2019-2024",
    "Oil change interval: 20000 km",
    "Grid frequency: 60 Hz",
    "Part 2 of 7: idle",
    "Resolution of the screen: 1920",
    "Heart rate of the driver: 72",
    "Compression test, step 4: done",
    "Pay rate: 48",
  ]);
  const rows = Array.from({ length: count(next) }, (_, i) => volts(i / 10));
  return { text: `${line}\n${csv(sensors, rows)}`, refusal: "no-time", judge: () => "wrong" };
}

function statedRate(next: Random): Made {
  const rate = pick(next, [5, 10, 20, 50, 100]);
  const line = pick(next, [
    `Sampling rate: ${rate} Hz`,
    `Sample interval: ${1 / rate} s`,
    `Abtastrate ${rate} Hz`,
    `Sampling period = ${1000 / rate} ms`,
    `Logging rate: ${rate} samples/s`,
  ]);
  const n = count(next);
  const rows = Array.from({ length: n }, (_, i) => volts(i / rate));
  return {
    text: `${line}\n${csv(sensors, rows)}`,
    judge: (capture) => (lasts(capture, (n - 1) / rate) ? "right" : "wrong"),
  };
}

/** A quantity with a name of its own in the first column, that rises: no time. */
function quantityFirst(next: Random): Made {
  const [name, from, step] = pick(next, [
    ["Odometer (km)", 48_000, 0.0005],
    ["Latitude", 47.1, 0.00002],
    ["Fuel used (l)", 2, 0.0003],
    ["Trip distance", 0, 0.004],
    ["Longitude (deg)", 8.2, 0.00003],
    ["Oil temperature", 60, 0.02],
  ] as const);
  const rows = Array.from({ length: count(next) }, (_, i) => [(from + i * step).toFixed(6), ...volts(i / 10)]);
  return { text: csv(`${name},${sensors}`, rows), refusal: "no-time", judge: () => "wrong" };
}

/** One column named like a time stands still; another moves as a clock does. */
function deadTime(next: Random): Made {
  const rate = pick(next, [1, 2, 4]);
  const n = count(next);
  const dead = pick(next, ["Time run with lamp on (min)", "Time since codes cleared (min)", "Time with fault (s)"]);
  const live = pick(next, ["Time (s)", "Elapsed time (s)", "Run time since engine start (s)"]);
  const isFirst = next.uniform() < 0.5;
  const header = isFirst ? `${dead},${live},${sensors}` : `${live},${sensors},${dead}`;
  const rows = Array.from({ length: n }, (_, i) => {
    const t = (i / rate).toFixed(2);
    return isFirst ? [0, t, ...volts(i / rate)] : [t, ...volts(i / rate), 0];
  });
  return { text: csv(header, rows), judge: (capture) => (lasts(capture, (n - 1) / rate) ? "right" : "wrong") };
}

/** Dates that can be read both ways, over midnight: the days follow each other in one of them only. */
function overMidnight(next: Random): Made {
  const [day, month] = [1 + Math.floor(11 * next.uniform()), 1 + Math.floor(12 * next.uniform())];
  const isDayFirst = next.uniform() < 0.5;
  const mark = pick(next, ["/", "-"]);
  const n = 100 + count(next);
  const begin = 86_400 - Math.floor(n * (0.2 + 0.6 * next.uniform()));
  const rows = Array.from({ length: n }, (_, i) => {
    const t = begin + i;
    const today = t >= 86_400 ? day + 1 : day;
    const date = isDayFirst ? [two(today), two(month)] : [two(month), two(today)];
    return [`${[...date, 2026].join(mark)} ${clock(t % 86_400)}`, ...volts(i)];
  });
  return { text: csv(`Time,${sensors}`, rows), judge: (capture) => (lasts(capture, n - 1) ? "right" : "wrong") };
}

/** Nothing in the file tells day from month: said, and what was said on the way in is obeyed. */
function openDates(next: Random): Made {
  const [day, month] = [1 + Math.floor(6 * next.uniform()), 7 + Math.floor(6 * next.uniform())];
  const n = count(next);
  const said = next.uniform() < 0.5 ? "day-first" : "month-first";
  const isSaid = next.uniform() < 0.5;
  const rows = Array.from({ length: n }, (_, i) => [
    `${two(day)}/${two(month)}/2026 ${clock(43_200 + i)}`,
    ...volts(i),
  ]);
  return {
    text: csv(`Time,${sensors}`, rows),
    choices: isSaid ? { dateOrder: said } : {},
    judge: (capture) => {
      if (!lasts(capture, n - 1)) return "wrong";
      const isTold = says(capture, /order of day and month/);
      return isSaid ? (isTold ? "wrong" : "right") : isTold ? "asked" : "wrong";
    },
  };
}

function packedClock(next: Random): Made {
  const n = 120 + count(next);
  const begin = 10 * 3600 + Math.floor(9 * 3600 * next.uniform());
  const rows = Array.from({ length: n }, (_, i) => [clock(begin + i).replaceAll(":", ""), ...volts(i)]);
  return { text: csv(`Time,${sensors}`, rows), judge: (capture) => (lasts(capture, n - 1) ? "right" : "wrong") };
}

/** Other things before the sensors that bear a word of theirs. */
function otherThings(next: Random): Made {
  const [name, value] = pick(next, [
    ["Front camera voltage (V)", 3.3],
    ["NOx sensor upstream (ppm)", 220],
    ["Front sensor supply (V)", 5.02],
    ["Upstream pressure (kPa)", 101],
    ["Front wiper switch", 0],
    ["Reference voltage front (V)", 4.98],
  ] as const);
  const rows = Array.from({ length: count(next) }, (_, i) => [
    (i / 10).toFixed(2),
    (value * (1 + 0.01 * Math.sin(i))).toFixed(3),
    ...volts(i / 10),
  ]);
  return {
    text: csv(`Time (s),${name},${sensors}`, rows),
    judge: (capture) => (has(capture, "O2 B1S1", "front-o2") && has(capture, "O2 B1S2", "rear-o2") ? "right" : "wrong"),
  };
}

/** The sensors' columns are empty; switches and ways are no sensors. */
function emptySensors(next: Random): Made {
  const mark = pick(next, ["-", "", "n/a"]);
  const n = count(next);
  const rows = Array.from({ length: n }, (_, i) => [
    i,
    mark,
    mark,
    i % 17 < 9 ? 0 : 1,
    (i * 0.011).toFixed(3),
    800 + i,
  ]);
  return {
    text: csv(`Time (s),${sensors},Brake switch,Trip distance (km),Engine RPM (rpm)`, rows),
    judge: (capture) => {
      const isNamed = says(capture, /named as an oxygen sensor, but holds no value/);
      return isNamed && !says(capture, /move like them|moves like one/) ? "right" : "wrong";
    },
  };
}

/** From some row on every column repeats: none of those values stays. */
function frozenTail(next: Random): Made {
  const n = 150 + count(next);
  const hung = Math.floor(n * (0.5 + 0.3 * next.uniform()));
  const rows = Array.from({ length: n }, (_, i) => {
    const at = Math.min(i, hung);
    return [i, 2200 + Math.round(30 * Math.sin(at)), (18 + Math.sin(at / 3)).toFixed(1), ...volts(at, 0.31)];
  });
  return {
    text: csv(`Time (s),Engine RPM (rpm),Throttle (%),${sensors}`, rows),
    judge: (capture) => {
      const known = capture.channels.find(({ role }) => role === "front-o2")!.series.samples.filter(Number.isFinite);
      return says(capture, /recorder hung/) && known.length <= hung + 1 ? "right" : "wrong";
    },
  };
}

/** The same rows without a hung recorder: nothing is taken out of a channel that rests. */
function restingLog(next: Random): Made {
  const n = 150 + count(next);
  const rows = Array.from({ length: n }, (_, i) => [
    i,
    2200 + Math.round(30 * Math.sin(i)),
    18,
    ...volts(i, 0.31).slice(0, 1),
    "0.680",
  ]);
  return {
    text: csv(`Time (s),Engine RPM (rpm),Throttle (%),${sensors}`, rows),
    judge: (capture) => (says(capture, /recorder hung/) ? "wrong" : "right"),
  };
}

/** Rows ten times a second, each channel asked for in every eighth of them: its rate is that of its renewals. */
function inTurn(next: Random): Made {
  const turn = 4 + Math.floor(7 * next.uniform());
  const n = 900;
  const held: (string | number)[] = ["", "", ""];
  const rows = Array.from({ length: n }, (_, i) => {
    const t = i / 10;
    if (i % turn === 0) held[0] = Math.round(2200 + 300 * Math.sin(t / 3) + 40 * next.normal());
    if (i % turn === 1) held[1] = (0.45 + 0.38 * Math.tanh(4 * Math.sin(4.1 * t)) + 0.01 * next.normal()).toFixed(3);
    if (i % turn === 2) held[2] = (0.66 + 0.05 * Math.sin(t / 2) + 0.01 * next.normal()).toFixed(3);
    return [t.toFixed(1), ...held];
  });
  return {
    text: csv(`Time (s),Engine RPM (rpm),${sensors}`, rows),
    judge: ({ channels }) => {
      const samples = channels.filter(({ role }) => role !== "other").map(({ series }) => countOf(series.time));
      return samples.every((one) => one < (1.4 * n) / turn) ? "right" : "wrong";
    },
  };
}

/** A timer without a unit whose seconds would be absurd: it is said. */
function oddTimer(next: Random): Made {
  const step = 4.5 + 12 * next.uniform();
  const rows = Array.from({ length: count(next) }, (_, i) => [(i * step).toFixed(2), ...volts(i / 100)]);
  return {
    text: csv(`Timer,${sensors}`, rows),
    refusal: "no-time",
    judge: (capture) => (says(capture, /doubtful/) ? "asked" : "wrong"),
  };
}

export const kinds: Readonly<Record<string, Kind>> = {
  "other numbers above the table": otherNumbers,
  "a rate stated in words": statedRate,
  "a quantity that rises, no time": quantityFirst,
  "a time column that stands still": deadTime,
  "dates over midnight": overMidnight,
  "dates that can be read both ways": openDates,
  "clock packed into one number": packedClock,
  "other things with a sensor's words": otherThings,
  "empty sensor columns": emptySensors,
  "recorder hung": frozenTail,
  "a channel that rests": restingLog,
  "asked for in turn, held between": inTurn,
  "a timer in doubtful units": oddTimer,
  ...kindsOfTime,
  ...kindsOfContent,
  ...kindsOfHeader,
};

/** Words of the machine, which no person should read. */
const machineWords = /undefined|\bNaN\b|\bnull\b|Infinity|\[object|Error:|RangeError|TypeError/;
const speaksMachine = ({ remarks }: Capture): boolean => remarks.some(({ text }) => machineWords.test(text));

/** Reads one made file, and says how it went. */
export async function outcomeOf(kind: string, next: Random): Promise<Outcome> {
  const { text, bytes, choices, judge, refusal, tells } = kinds[kind]!(next);
  const read = await openBytes(bytes ?? new TextEncoder().encode(text), choices ?? {});
  if (read.ok) return speaksMachine(read.value) ? "wrong" : judge(read.value);
  const told = [read.problem.what, read.problem.remedy, read.problem.where ?? ""].join(" ");
  const isRight = read.problem.code === refusal && (tells?.test(told) ?? true) && !machineWords.test(told);
  return isRight ? "refused" : "wrong";
}
