// Kinds of odd logs whose columns are odd: keys, marks, units, names, blocks, settings.

import { analyse } from "../../src/exhaust/analyse.ts";
import { countOf } from "../../src/signal/series/series.ts";
import { type Random, random } from "../reference/recorders.ts";
import { logOf } from "./log.ts";
import {
  channelOf,
  clock,
  count,
  csv,
  front,
  has,
  type Kind,
  lasts,
  type Made,
  pick,
  rear,
  rightIf,
  says,
  sensors,
  statementsOn,
  volts,
  whole,
} from "./made.ts";
import { drive, type Leg, someCar } from "./plant.ts";

/** One row for a sample, and more than one key: a channel for each combination. */
function twoKeys(next: Random): Made {
  const n = whole(next, 40, 90);
  const [header, values] = pick(next, [
    ["site", ["north", "south"]],
    ["Logger", ["A", "B", "C"]],
    ["bank", ["1", "2"]],
    ["ECU id", ["16", "17", "24"]],
    ["Control module", ["7E8", "7E9"]],
    ["Unit no", ["3", "4"]],
    ["Probe set", ["0", "1", "2"]],
  ] as const);
  const isTold = !["Unit no", "Probe set"].includes(header);
  const isInTurn = !isTold || next.uniform() < 0.5;
  const of = (key: string, k: number, i: number) =>
    ["O2 Sensor 1 (V)", "O2 Sensor 2 (V)"].map((name, s) => [
      key,
      "x",
      i,
      name,
      (s === 0 ? front(i + k, 0.31) : rear(i) - 0.02 * k).toFixed(3),
    ]);
  const times = Array.from({ length: n }, (_, i) => i);
  const rows = isInTurn
    ? times.flatMap((i) => values.flatMap((key, k) => of(key, k, i)))
    : values.flatMap((key, k) => times.flatMap((i) => of(key, k, i)));
  return {
    text: csv(`${header},device,time (s),parameter,value`, rows),
    judge: ({ channels }) =>
      rightIf(
        channels.length === 2 * values.length &&
          channels.every(({ series }) => countOf(series.time) === n) &&
          channels.filter(({ name }) => name.endsWith(`${values[1]})`)).length === 2,
      ),
  };
}

/** Whole numbers in an array without names: counts that rise slowly are no time. NPY 1.0, numpy/lib/format.py. */
function integers(next: Random): Made {
  const n = 200 + count(next);
  const slow = whole(next, 10, 60);
  const header = `{'descr': '<i4', 'fortran_order': False, 'shape': (${n}, 2), }`;
  const padded = `${header.padEnd(64 * Math.ceil((header.length + 11) / 64) - 11)}\n`;
  const bytes = new Uint8Array(10 + padded.length + 8 * n);
  bytes.set([0x93, 0x4e, 0x55, 0x4d, 0x50, 0x59, 1, 0, padded.length & 255, padded.length >> 8]);
  bytes.set(new TextEncoder().encode(padded), 10);
  const view = new DataView(bytes.buffer, 10 + padded.length);
  const isSlowFirst = next.uniform() < 0.5;
  for (let i = 0; i < n; i++) {
    const pair = [Math.floor(i / slow), 400 + Math.round(300 * Math.sin(i / 3))];
    for (const [c, value] of (isSlowFirst ? pair : pair.reverse()).entries()) view.setInt32(8 * i + 4 * c, value, true);
  }
  return { text: "", bytes, refusal: "no-time", judge: () => "wrong" };
}

/** A degree sign that went through a wrong table. */
function brokenUnits(next: Random): Made {
  const broken = pick(next, ["\u00c2\u00b0", "\ufffd", "\u00ac\u221e", "\u00f8", "?", "\u00ba"]);
  const isFahrenheit = next.uniform() < 0.4;
  const isInside = next.uniform() < 0.3 && broken !== "?" && broken !== "\u00f8" && broken !== "\u00ac\u221e";
  const unit = `${broken}${isFahrenheit ? "F" : "C"}`;
  const rows = Array.from({ length: count(next) }, (_, i) => {
    const degrees = (isFahrenheit ? 190 : 88) + (i % 5);
    return [i, isInside ? `${degrees} ${unit}` : degrees, ...volts(i, 0.31)];
  });
  const header = isInside ? "Coolant temperature" : `Coolant temperature (${unit})`;
  return {
    text: csv(`Time (s),${header},${sensors}`, rows),
    judge: (capture) => {
      const coolant = channelOf(capture, "coolant-temp");
      const first = coolant?.series.samples[0] ?? 0;
      return rightIf(coolant?.unit === "degC" && Math.abs(first - 88) < 0.5);
    },
  };
}

/** A number that stands for "no value": called one, and nothing is said of leads. */
function markers(next: Random): Made {
  const [mark, unit] = pick(next, [
    ["-1", "V"],
    ["1.275", "V"],
    ["-99", "V"],
    ["65.535", "V"],
    ["-9999", "mV"],
  ] as const);
  const every = whole(next, 9, 25);
  const n = 400 + count(next);
  const rows = Array.from({ length: n }, (_, i) => {
    const [f, r] = volts(i / 20, 0.9).map((value) => (unit === "mV" ? Math.round(1000 * Number(value)) : value));
    return [(i / 20).toFixed(2), i % every === 4 ? mark : f!, r!];
  });
  return {
    text: csv(`Time (s),O2 B1S1 (${unit}),O2 B1S2 (${unit})`, rows),
    judge: (capture) => {
      const isCalled = says(capture, /mark for "no value"/) && !says(capture, /clipped/);
      return rightIf(isCalled && !statementsOn(capture).some((one) => /leads|swapped|below zero/.test(one)));
    },
  };
}

/** A true signal that goes below zero: an offset lead, no marker. */
function belowZero(next: Random): Made {
  const rows = Array.from({ length: 500 }, (_, i) => {
    const [f, r] = volts(i / 20, 0.9);
    return [(i / 20).toFixed(2), (Number(f) - 0.9 + 0.01 * next.normal()).toFixed(3), r!];
  });
  return {
    text: csv(`Time (s),${sensors}`, rows),
    judge: (capture) => rightIf(!says(capture, /mark for "no value"/)),
  };
}

/** A part of the recorder's memory was written twice. */
function blockTwice(next: Random): Made {
  const n = 250 + count(next);
  const [from, length] = [whole(next, 20, 80), whole(next, 15, 50)];
  const copy = whole(next, from + length, n - length - 5);
  const speeds = Array.from({ length: n }, () => 2200 + Math.round(30 * next.normal()));
  const rows = Array.from({ length: n }, (_, i) => {
    const at = i >= copy && i < copy + length ? i - copy + from : i;
    return [(i / 5).toFixed(1), speeds[at]!, (0.45 + 0.35 * Math.sin(0.9 * at)).toFixed(3), rear(at).toFixed(3)];
  });
  return {
    text: csv(`Time (s),Engine RPM (rpm),${sensors}`, rows),
    judge: (capture) => {
      const named = says(capture, /a block that was written twice/);
      const missing = channelOf(capture, "engine-speed")!.series.samples.filter(Number.isNaN).length;
      return rightIf(named && missing === length);
    },
  };
}

/** The same with the stamps: rows that are there twice, and no clock that started again. */
function stampedTwice(next: Random): Made {
  const n = 250 + count(next);
  const [from, length] = [whole(next, 20, 120), whole(next, 15, 50)];
  const all = Array.from({ length: n }, (_, i) => [
    (i / 5).toFixed(1),
    2200 + Math.round(30 * next.normal()),
    ...volts(i / 5, 0.31),
  ]);
  const rows = [...all.slice(0, from + length), ...all.slice(from, from + length), ...all.slice(from + length)];
  return {
    text: csv(`Time (s),Engine RPM (rpm),${sensors}`, rows),
    judge: (capture) => {
      const isTold =
        says(capture, /a block that was written twice/) && !says(capture, /starts again|without a readable/);
      return rightIf(
        isTold && lasts(capture, (n - 1) / 5) && channelOf(capture, "front-o2")!.series.samples.length === n,
      );
    },
  };
}

/** A wave whose period is a whole number of rows repeats itself: no block. */
function regular(next: Random): Made {
  const period = pick(next, [10, 20, 25]);
  const rows = Array.from({ length: 200 + count(next) }, (_, i) => [
    (i / 10).toFixed(1),
    (0.45 + 0.35 * Math.sin((2 * Math.PI * (i % period)) / period)).toFixed(3),
    (0.6 + 0.05 * Math.sin((2 * Math.PI * (i % period)) / period)).toFixed(3),
  ]);
  return { text: csv(`Time (s),${sensors}`, rows), judge: (capture) => rightIf(!says(capture, /written twice|hung/)) };
}

/** Coarse values of a sensor that switches nearly in step with the rows: rows equal earlier ones by chance, for seconds. */
function coarse(next: Random): Made {
  const unit = pick(next, [0.02, 0.05, 0.1]);
  const [perRow, wander] = [1 / pick(next, [7, 10, 12]), pick(next, [0, 0.0002, 0.001])];
  const steps = (value: number) => (Math.round(value / unit) * unit).toFixed(2);
  let phase = next.uniform();
  const rows = Array.from({ length: 1200 + count(next) }, (_, i) => {
    phase += perRow + wander * next.normal();
    const front = 0.45 + 0.35 * Math.tanh(3 * Math.sin(2 * Math.PI * phase));
    return [(i / 10).toFixed(1), "800", steps(front), steps(0.68 + 0.05 * Math.sin(phase))];
  });
  return {
    text: csv(`Time (s),Engine RPM (rpm),${sensors}`, rows),
    judge: (capture) => rightIf(!says(capture, /written twice|hung/)),
  };
}

/** Two columns bear the same sensor's name: which it is only the user knows. */
function rivals(next: Random): Made {
  const other = pick(next, ["Oxygen sensor bank 1 sensor 1 (V)", "Lambda voltage B1S1 (V)", "O2S11 (V)"]);
  const rows = Array.from({ length: count(next) }, (_, i) => {
    const [f, r] = volts(i / 10);
    return [(i / 10).toFixed(1), f!, (0.9 - Number(f)).toFixed(3), r!];
  });
  return {
    text: csv(`Time (s),O2 B1S1 (V),${other},O2 B1S2 (V)`, rows),
    judge: (capture) => (says(capture, /role that another one has/) ? "asked" : "wrong"),
  };
}

/** Two sensors and nothing else, for some seconds: nothing is said of what was not recorded. */
function onlySensors(next: Random): Made {
  const seconds = whole(next, 2, 8);
  const rows = Array.from({ length: 100 * seconds }, (_, i) => [(i / 100).toFixed(2), ...volts(i / 100, 1.5)]);
  return {
    text: csv(`Time (s),${sensors}`, rows),
    judge: (capture) => {
      const spoken = statementsOn(capture).filter((one) =>
        /(engine speed|throttle|road speed).* was moving/i.test(one),
      );
      return rightIf(spoken.length === 0);
    },
  };
}

/** Settings stand above the names, or beside the first rows: they are no channels, and the rate is theirs. */
function settings(next: Random): Made {
  const rate = pick(next, [5, 10, 20, 50]);
  const n = count(next);
  const lines = [
    ["Workshop", "bay four"],
    ["Sampling rate", String(rate), "Hz"],
    ["Gain", "2"],
    ["Filter", "off"],
  ].sort(() => next.uniform() - 0.5);
  const isAbove = next.uniform() < 0.5;
  const body = Array.from({ length: n }, (_, i) => volts(i / rate, 0.31));
  const text = isAbove
    ? `${lines.map((line) => line.join(",")).join("\n")}\n${csv(sensors, body)}`
    : csv(
        `${sensors},,Setting,Value`,
        body.map((row, i) => [...row, "", lines[i]?.[0] ?? "", lines[i]?.slice(1).join(" ") ?? ""]),
      );
  return {
    text,
    judge: (capture) => {
      const isClean = capture.channels.every(({ role }) => role === "front-o2" || role === "rear-o2");
      const duration = (n - 1) / rate;
      const time = channelOf(capture, "front-o2")!.series.time;
      return rightIf(
        isClean && countOf(time) === n && time.kind === "even" && Math.abs((n - 1) * time.step - duration) < 1e-6,
      );
    },
    // Beside the names a rate is a setting like others; above them it is stated.
    ...(isAbove ? {} : { refusal: "no-time" }),
  };
}

/** The mixture turns lean while the foot and the speed stay where they are: no lift-off. */
function creeping(next: Random): Made {
  const legs: Leg[] = [
    { kind: "idle", seconds: 15 },
    { kind: "cruise", seconds: 40 },
    { kind: "creep", seconds: 14 },
    { kind: "cruise", seconds: 25 },
    { kind: "creep", seconds: 14 },
    { kind: "cruise", seconds: 20 },
  ];
  return driven(next, legs, ({ liftOffs }) => rightIf(liftOffs.every(({ rejected }) => rejected !== null)));
}

/** Clear closings in a log of one to four rows a second: each is listed. */
function closings(next: Random): Made {
  const legs: Leg[] = [
    { kind: "idle", seconds: 20 },
    { kind: "cruise", seconds: 40 },
  ];
  const times = 3;
  for (let k = 0; k < times; k++)
    legs.push({ kind: "pull", seconds: 6 }, { kind: "closing", seconds: 9 }, { kind: "cruise", seconds: 25 });
  return driven(next, legs, ({ liftOffs }, made) =>
    rightIf(made.closings.every((at) => liftOffs.some((one) => Math.abs(one.at - at) < 4))),
  );
}

function driven(
  next: Random,
  legs: readonly Leg[],
  judge: (analysis: ReturnType<typeof analyse>, made: ReturnType<typeof drive>) => ReturnType<Made["judge"]>,
): Made {
  const made = drive(someCar(next, pick(next, [0.2, 0.5, 1])), legs, whole(next, 1, 1e6));
  const rule = {
    rows: next.between(1, 4),
    channels: ["engineSpeed", "throttle", "roadSpeed", "airFlow", "front", "rear"] as const,
    turn: 1,
    between: "held" as const,
    jitter: 0.2 * next.uniform(),
    noise: 0.004,
    quantum: 0.005,
  };
  const { stamps, columns } = logOf(made, rule, random(whole(next, 1, 1e6)));
  const rows = Array.from(stamps, (stamp, i) => [
    (stamp - stamps[0]!).toFixed(2),
    ...rule.channels.map((name) => columns[name]![i]!.toFixed(name === "roadSpeed" ? 0 : 3)),
  ]);
  return {
    text: csv(`Time (s),Engine RPM (rpm),Throttle (%),Speed (km/h),Air flow (g/s),${sensors}`, rows),
    judge: (capture) => judge(analyse(capture, { bank: 1 }), made),
  };
}

/** Switches, ways and states beside the sensors are none. */
function switches(next: Random): Made {
  const [name, on, off] = pick(next, [
    ["Rear window heater", "on", "off"],
    ["Clutch switch front", "1", "0"],
    ["Brake light switch", "yes", "no"],
    ["O2 heater status bank 1 sensor 1", "ON", "OFF"],
    ["Downstream valve position (%)", "40", "60"],
  ] as const);
  const rows = Array.from({ length: count(next) }, (_, i) => [i, i % 19 < 8 ? on : off, ...volts(i, 0.31)]);
  return {
    text: csv(`Time (s),${name},${sensors}`, rows),
    judge: (capture) => rightIf(has(capture, "O2 B1S1", "front-o2") && has(capture, "O2 B1S2", "rear-o2")),
  };
}

/** Two recordings of one table after the other, with the header again between them. */
function headerAgain(next: Random): Made {
  const n = 60 + count(next);
  const at = whole(next, 20, n - 20);
  const rows = Array.from({ length: n }, (_, i) => [clock(36_000 + i), ...volts(i, 0.31)].join(","));
  rows.splice(at, 0, `Time,${sensors}`);
  return {
    text: `Time,${sensors}\n${rows.join("\n")}\n`,
    judge: (capture) =>
      rightIf(channelOf(capture, "front-o2")!.series.samples.length === n && says(capture, /header stands again/)),
  };
}

/** In a fuel cut both sensors rest at their lowest, as the values of a standing engine do: nothing hung. */
function bothRest(next: Random): Made {
  const n = 250 + count(next);
  const [from, length] = [whole(next, 90, 150), whole(next, 30, 70)];
  const isStanding = next.uniform() < 0.5;
  const rows = Array.from({ length: n }, (_, i) => {
    const isOut = i >= from && i < from + length;
    const speed = isOut ? 0 : 2200 + Math.round(30 * next.normal());
    const [f, r] = volts(i / 5, 0.31);
    const cells = isOut ? ["0.020", "0.025"] : [f!, r!];
    return [(i / 5).toFixed(1), ...(isStanding ? [speed] : []), ...cells];
  });
  return {
    text: csv(`Time (s),${isStanding ? "Engine RPM (rpm)," : ""}${sensors}`, rows),
    judge: (capture) => rightIf(!says(capture, /hung|written twice/)),
  };
}

export const kindsOfContent: Readonly<Record<string, Kind>> = {
  "long tables with more than one key": twoKeys,
  "arrays of whole numbers without names": integers,
  "a degree sign that broke": brokenUnits,
  'marks for "no value"': markers,
  "a signal below zero": belowZero,
  "a block written twice": blockTwice,
  "a wave that repeats itself": regular,
  "coarse values nearly in step with the rows": coarse,
  "two columns named for one sensor": rivals,
  "two sensors and nothing else": onlySensors,
  "settings above or beside the names": settings,
  "lean with the foot where it was": creeping,
  "closings at 1 to 4 rows/s": closings,
  "switches and states": switches,
  "the header again inside": headerAgain,
  "both sensors at rest": bothRest,
  "a block written twice with its stamps": stampedTwice,
};
