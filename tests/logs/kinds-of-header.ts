// Odd logs by what stands between names and numbers, and behind the clock.

import type { Random } from "../reference/recorders.ts";
import {
  channelOf,
  clock,
  count,
  csv,
  type Kind,
  lasts,
  type Made,
  pick,
  rightIf,
  says,
  volts,
  whole,
} from "./made.ts";

const highOf = (samples: ArrayLike<number>) => Math.max(...Array.from(samples).filter(Number.isFinite));

/**
 * Factors below the names: of counts, which make no sense without them; of numbers that are multiplied already; and of ones that may
 * be either, where it is said.
 */
function factors(next: Random): Made {
  const kind = pick(next, ["counts", "multiplied", "open"] as const);
  const label = pick(next, ["Factor", "# Scale:", "Faktor", "Gain", "Multiply by", "facteur"]);
  const perVolt = pick(next, [200, 128, 1000]);
  const [perTurn, offset] = [pick(next, [4, 8]), pick(next, [0, 40])];
  const isRaw = kind === "counts";
  const rows = Array.from({ length: count(next) }, (_, i) => {
    const [front, rear] = volts(i / 10);
    const speed = 1500 + 40 * Math.sin(i / 9);
    if (kind === "open") return [(i / 10).toFixed(1), speed.toFixed(0), (70 + i / 50).toFixed(0), front!, rear!];
    return [
      (i / 10).toFixed(1),
      (isRaw ? speed * perTurn : speed).toFixed(0),
      ((isRaw ? offset : 0) + 86 + i / 50).toFixed(0),
      isRaw ? Math.round(Number(front) * perVolt) : front!,
      isRaw ? Math.round(Number(rear) * perVolt) : rear!,
    ];
  });
  const units = "s,rpm,degC,V,V";
  const names = "Time,Engine speed,Coolant temperature,O2 B1S1,O2 B1S2";
  const factorRow = kind === "open" ? `${label},1,0.9,1,1` : `${label},${1 / perTurn},1,${1 / perVolt},${1 / perVolt}`;
  const offsetRow = offset === 0 || kind === "open" ? [] : [`Offset,0,${-offset},0,0`];
  const below = next.uniform() < 0.5 ? [units, factorRow, ...offsetRow] : [factorRow, ...offsetRow, units];
  return {
    text: csv([names, ...below].join("\n"), rows),
    judge: (capture) => {
      const isRight =
        Math.abs(highOf(channelOf(capture, "front-o2")!.series.samples) - 0.84) < 0.02 &&
        Math.abs(highOf(channelOf(capture, "engine-speed")!.series.samples) - 1540) < 5 &&
        highOf(channelOf(capture, "coolant-temp")!.series.samples) < 100;
      if (!isRight || !lasts(capture, (rows.length - 1) / 10)) return "wrong";
      if (kind === "open") return says(capture, /do not tell whether they are multiplied already/) ? "asked" : "wrong";
      return rightIf(says(capture, isRaw ? /and were multiplied/ : /make sense without them/));
    },
  };
}

/** A zone behind the clock: its letters, its distance, or its place. */
function zones(next: Random): Made {
  const zone = pick(next, [
    " CET",
    " (PDT)",
    " GMT+0100",
    " UTC-5",
    "+01:00[Europe/Berlin]",
    " Uhr",
    "-05",
    " UTC",
    "Z",
  ]);
  const date = pick(next, ["2026-03-04 ", "2026-03-04T", "04-Mar-2026 ", "", "Wed Mar 04 "]);
  const begin = whole(next, 0, 80_000);
  const n = count(next);
  const isYearLast = date.startsWith("Wed");
  const rows = Array.from({ length: n }, (_, i) => [
    isYearLast ? `${date}${clock(begin + i)} GMT+02:00 2026` : `${date}${clock(begin + i)}${zone}`,
    ...volts(i),
  ]);
  return {
    text: csv(`${pick(next, ["Time", "Timestamp", "Device time"])},O2 B1S1 (V),O2 B1S2 (V)`, rows),
    judge: (capture) => rightIf(lasts(capture, n - 1) && channelOf(capture, "rear-o2") !== undefined),
  };
}

/** Names on two lines, of which the lower one is empty here and there; units below them. */
function namesOnTwoLines(next: Random): Made {
  const n = count(next);
  const rows = Array.from({ length: n }, (_, i) => [i, 1500 + (i % 40), ...volts(i)]);
  const names = pick(next, [
    "Run,Engine RPM,Oxygen bank 1,Oxygen bank 1\ntime,,sensor 1,sensor 2",
    "Time,Engine,Front O2,Rear O2\n,RPM,voltage,voltage",
  ]);
  return {
    text: csv(`${names}\n${pick(next, ["s,rpm,V,V", "[s],[1/min],[V],[V]"])}`, rows),
    judge: (capture) =>
      rightIf(
        lasts(capture, n - 1) &&
          (["engine-speed", "front-o2", "rear-o2"] as const).every((role) => channelOf(capture, role) !== undefined),
      ),
  };
}

/** Units inside the cells, with digits in them or without. */
function unitsInside(next: Random): Made {
  const [turns, isMillivolts] = [pick(next, [" rpm", " min-1", " 1/min", " U/min"]), next.uniform() < 0.5];
  const isComma = next.uniform() < 0.5;
  const written = (value: string) => (isComma ? value.replace(".", ",") : value);
  const n = count(next);
  const volt = (value: string) => (isMillivolts ? `${Math.round(1000 * Number(value))} mV` : `${written(value)} V`);
  const rows = Array.from({ length: n }, (_, i) => [
    `${written((i / 4).toFixed(2))} s`,
    `${1500 + (i % 40)}${turns}`,
    ...volts(i / 4).map(volt),
  ]);
  return {
    text: csv("Time;Engine speed;O2 B1S1;O2 B1S2", rows, ";"),
    judge: (capture) =>
      rightIf(
        lasts(capture, (n - 1) / 4) &&
          channelOf(capture, "engine-speed") !== undefined &&
          Math.abs(highOf(channelOf(capture, "front-o2")?.series.samples ?? []) - 0.84) < 0.02,
      ),
  };
}

/** The sensors' cells hold a word until there is a value: for a part of the rows, beyond those that are looked at first, or always. */
function awaited(next: Random): Made {
  const word = pick(next, ["waiting", "n/v", "kein Wert", "off line", "warming up", "sin datos"]);
  const n = 500 + count(next);
  const until = pick(next, [30, 250, 470, n]);
  const rows = Array.from({ length: n }, (_, i) => [
    (i / 5).toFixed(1),
    900 + (i % 30),
    ...(i < until ? [word, word] : volts(i / 5)),
  ]);
  return {
    text: csv("Time (s),Engine RPM (rpm),O2 B1S1 (V),O2 B1S2 (V)", rows),
    judge: (capture) => {
      if (until === n) return rightIf(says(capture, /named as an oxygen sensor, but holds no value/));
      const known = channelOf(capture, "front-o2")?.series.samples.filter(Number.isFinite).length;
      return rightIf(known === n - until && channelOf(capture, "rear-o2") !== undefined);
    },
  };
}

export const kindsOfHeader: Readonly<Record<string, Kind>> = {
  "factors below the names": factors,
  "a zone behind the clock": zones,
  "names on two lines": namesOnTwoLines,
  "units inside the cells": unitsInside,
  "a word until there is a value": awaited,
};
