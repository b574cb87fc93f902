// Kinds of odd logs whose times are in disorder, or written in an odd way.

import { timeAt } from "../../src/signal/series/series.ts";
import { formatSpan } from "../../src/signal/written/reading-text.ts";
import type { Random } from "../reference/recorders.ts";
import {
  channelOf,
  clock,
  count,
  csv,
  front,
  type Kind,
  lasts,
  type Made,
  pick,
  rightIf,
  says,
  sensors,
  two,
  volts,
  whole,
} from "./made.ts";

/** Rows were written evenly, and shuffled later: all of them, or within blocks. */
function shuffled(next: Random): Made {
  const rate = pick(next, [2, 5, 10, 20]);
  const n = count(next);
  const order = Array.from({ length: n }, (_, i) => i);
  const reach = pick(next, [8, n]);
  for (let i = n - 1; i > 0; i--) {
    const j = Math.max(0, i - Math.floor(reach * next.uniform()));
    [order[i], order[j]] = [order[j]!, order[i]!];
  }
  const rows = order.map((i) => [(i / rate).toFixed(2), ...volts(i / rate, 0.31)]);
  return {
    text: csv(`Time (s),${sensors}`, rows),
    judge: (capture) => {
      const { samples, time } = channelOf(capture, "front-o2")!.series;
      const isTrue = [...samples].every((value, i) => Math.abs(value - front(timeAt(time, i), 0.31)) < 0.0006);
      return rightIf(samples.length > 0.95 * n && isTrue && lasts(capture, (n - 1) / rate));
    },
  };
}

/** Many stamps cannot be read: which rows those are is no matter of ours to decide in silence. */
function brokenStamps(next: Random): Made {
  const n = count(next);
  const every = whole(next, 4, 12);
  const mark = pick(next, ["??", "err", "#N/A"]);
  const rows = Array.from({ length: n }, (_, i) => [i % every === 3 ? mark : i, ...volts(i)]);
  return { text: csv(`Time (s),${sensors}`, rows), refusal: "rows-lost", judge: () => "wrong" };
}

/** A few rows stand twice, one after the other. */
function fewTwice(next: Random): Made {
  const n = 150 + count(next);
  const rows = Array.from({ length: n }, (_, i) => [i / 10, ...volts(i / 10, 0.33)]);
  for (let k = 0; k < 4; k++) {
    const at = whole(next, 5, rows.length - 5);
    rows.splice(at, 0, rows[at]!);
  }
  return {
    text: csv(`Time (s),${sensors}`, rows),
    judge: (capture) =>
      rightIf(channelOf(capture, "front-o2")!.series.samples.length === n && says(capture, /repeat the stamp before/)),
  };
}

/** The clocks of the wall are set back by an hour: the hour comes twice. */
function autumn(next: Random): Made {
  const n = 100 + count(next);
  const change = whole(next, 20, n - 20);
  const begin = 3 * 3600 - change;
  const [date, header] = pick(next, [
    ["2026-10-25 ", "Time"],
    ["25.10.2026 ", "Zeit"],
    ["2026-11-01T", "Timestamp"],
    ["", "Time"],
  ] as const);
  const rows = Array.from({ length: n }, (_, i) => [
    `${date}${clock(begin + i - (i >= change ? 3600 : 0))}`,
    ...volts(i, 0.31),
  ]);
  return {
    text: csv(`${header},${sensors}`, rows),
    judge: (capture) => rightIf(lasts(capture, n - 1) && says(capture, /set back by an hour/)),
  };
}

/** A recorder that was started again: its time begins anew, and nothing says how long it stood. */
function restarted(next: Random): Made {
  const n = 60 + count(next);
  const at = whole(next, 25, n - 25);
  const rows = Array.from({ length: n }, (_, i) => [((i < at ? i : i - at) / 5).toFixed(1), ...volts(i / 5, 0.31)]);
  return {
    text: csv(`Time (s),${sensors}`, rows),
    judge: (capture) =>
      rightIf(says(capture, /starts again inside/) && channelOf(capture, "front-o2")!.series.samples.length === n),
  };
}

/** Marks for thousands, and no decimals, in a time of milliseconds. */
function groupedThousands(next: Random): Made {
  const n = 60 + count(next);
  const step = pick(next, [50, 100, 200, 250]);
  const mark = pick(next, [".", ",", "'", "\u00a0"]);
  const grouped = (value: number) => String(value).replace(/\B(?=(\d{3})+$)/g, mark);
  const rows = Array.from({ length: n }, (_, i) => [
    grouped(i * step),
    ...volts((i * step) / 1000, 0.31).map((one) => Math.round(1000 * Number(one))),
    grouped(900 + 2 * i),
  ]);
  return {
    text: csv("Zeit (ms);Sonde vor Kat (mV);Sonde nach Kat (mV);Motordrehzahl (1/min)", rows, ";"),
    judge: (capture) => {
      const speed = channelOf(capture, "engine-speed")?.series.samples;
      return rightIf(lasts(capture, ((n - 1) * step) / 1000) && speed?.at(-1) === 900 + 2 * (n - 1));
    },
  };
}

/** The decimal mark changes inside the file: not read, and where is said. */
function markChanges(next: Random): Made {
  const n = 60 + count(next);
  const at = whole(next, 10, n - 10);
  const isToComma = next.uniform() < 0.5;
  const delimiter = pick(next, [";", "\t"]);
  const rows = Array.from({ length: n }, (_, i) => {
    const cells = [(i / 20).toFixed(2), ...volts(i / 20)];
    return i >= at === isToComma ? cells.map((cell) => cell.replace(".", ",")) : cells;
  });
  return {
    text: csv(`Time (s);${sensors.replace(",", ";")}`.replaceAll(";", delimiter), rows, delimiter),
    refusal: "unclear",
    tells: new RegExp(`line ${at + 2}\\b`),
    judge: () => "wrong",
  };
}

/** Holes of several lengths: each is told by its place. */
function holes(next: Random): Made {
  const n = 150 + count(next);
  const starts = [30, 70, 110].map((at) => at + whole(next, -8, 8));
  const lengths = starts.map(() => whole(next, 4, 60));
  let t = 0;
  const ends: string[] = [];
  const rows = Array.from({ length: n }, (_, i) => {
    const k = starts.indexOf(i);
    if (k >= 0) {
      const from = t - 0.1;
      t += lengths[k]!;
      ends.push(formatSpan({ from: Number(from.toFixed(2)), to: Number(t.toFixed(2)) }));
    }
    const row = [t.toFixed(2), ...volts(t, 0.31)];
    t += 0.1;
    return row;
  });
  return {
    text: csv(`Time (s),${sensors}`, rows),
    judge: (capture) => rightIf(ends.every((end) => capture.remarks.some(({ text }) => text.includes(end)))),
  };
}

/** Midnight is passed, with a clock alone: a day goes on. */
function clockPastMidnight(next: Random): Made {
  const n = 100 + count(next);
  const begin = 86_400 - whole(next, 10, n - 10);
  const rows = Array.from({ length: n }, (_, i) => [clock((begin + i) % 86_400), ...volts(i, 0.31)]);
  return { text: csv(`Time,${sensors}`, rows), judge: (capture) => rightIf(lasts(capture, n - 1)) };
}

/** Days above twelve stand far below the head's first rows. */
function lateDay(next: Random): Made {
  const n = 1500 + whole(next, 0, 500);
  const month = whole(next, 1, 11);
  const isDayFirst = next.uniform() < 0.5;
  const rows = Array.from({ length: n }, (_, i) => {
    const minutes = 15 * i;
    const day = 1 + Math.floor(minutes / 1440);
    const date = isDayFirst ? `${two(day)}/${two(month)}` : `${two(month)}/${two(day)}`;
    return [`${date}/2026 ${clock((minutes % 1440) * 60)}`, ...volts(i, 0.31)];
  });
  return { text: csv(`Time,${sensors}`, rows), judge: (capture) => rightIf(lasts(capture, 900 * (n - 1))) };
}

export const kindsOfTime: Readonly<Record<string, Kind>> = {
  "rows shuffled": shuffled,
  "stamps that cannot be read": brokenStamps,
  "a few rows twice": fewTwice,
  "autumn's hour twice": autumn,
  "a recorder started again": restarted,
  "thousands marks in time and speed": groupedThousands,
  "a decimal mark that changes": markChanges,
  "several holes": holes,
  "a clock past midnight": clockPastMidnight,
  "days above twelve far below": lateDay,
};
