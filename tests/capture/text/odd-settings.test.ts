// Lines above the numbers that state a rate of sampling, and lines that speak of other things; names and marks as odd programs write them.

import { describe, expect, test } from "vitest";
import { rateIn } from "../../../src/capture/text/stated-rate.ts";
import { analyse } from "../../../src/exhaust/analyse.ts";
import { timeAt } from "../../../src/signal/series/series.ts";
import { channelOf, csv, front, lasts, says, sensors, volts } from "../../logs/made.ts";
import { openBytes } from "../open.ts";

const rows = Array.from({ length: 150 }, (_, i) => volts(i / 20, 0.31));
const read = async (text: string) => {
  const outcome = await openBytes(new TextEncoder().encode(text), {});
  if (!outcome.ok) throw new Error(outcome.problem.what);
  return outcome.value;
};

describe("twenty a second are stated by", () => {
  test.each([
    "Samples per second: 20",
    "20 samples per second",
    "Sampled at 20 Hz",
    "Sampling every 50 ms",
    "Abtastung alle 50 ms",
    "Fréquence d’échantillonnage : 20 Hz",
    "Période d'échantillonnage : 50 ms",
    "Intervalo de muestreo: 50 ms",
    "Frequenza di campionamento: 20 Hz",
    "Bemonsteringsinterval: 50 ms",
    "Sample interval (ms): 50",
    "Sample rate [kHz] 0.02",
    "Time base: 0.05 s/sample",
    "Row interval: 50 ms",
    "dt = 0,05",
    "\u0394t = 50 ms",
    "\u2206t: 0.05 s",
    "Abtastintervall: 0,050 s",
    "Recording interval: 50 ms",
    "Messintervall: 50 ms",
    "Logging period: 50 ms",
    "Sample time: 0.05 s",
    "Abtastzeit: 50 ms",
    "sampling_interval_ms: 50",
    "sample_rate_khz = 0.02",
    "Sample interval ms 50",
  ])("%s", (line) => expect(rateIn(`Bay: 4\n${line}\nGain: 3`)).toBeCloseTo(20, 9));

  test("a step with a decimal comma above cells that commas part", async () => {
    expect(lasts(await read(`Abtastintervall: 0,05 s\n${csv(sensors, rows)}`), 7.45)).toBe(true);
  });
});

test("a rate with a mark for thousands that commas cut is asked for", async () => {
  const text = `Sampling rate: 1,000 Hz\n${csv(sensors, rows)}`;
  const outcome = await openBytes(new TextEncoder().encode(text), {});
  expect(outcome).toMatchObject({ ok: false, problem: { code: "no-time" } });
});

describe("a letter ahead of a rate's unit", () => {
  test.each([
    ["Sampling rate: 10 Messungen/s", 10],
    ["Acquisition rate: 10 Measurements/s", 10],
    ["Logged at 20 Messwerte/s", 20],
    ["Logged at 20 Kanalwerte/s", 20],
    ["Sampling rate: 2 kHz", 2000],
    ["Sampling rate: 2 MHz", 2e6],
    ["Sampling rate: 2 kSa/s", 2000],
    ["Sampling rate: 0.5 MS/s", 5e5],
    ["Sampling rate: 0.02 ksps", 20],
    ["Logged at 0.02 kilosamples/s", 20],
  ])("is a prefix where it stands before a unit, and the first of a word else: %s", (line, rate) =>
    expect(rateIn(line)).toBe(rate),
  );

  test.each(["500 mHz", "5 mS/s"])("is not guessed where it may mean two things: %s", (rate) =>
    expect(rateIn(`Sampling rate: ${rate}`)).toBeNull(),
  );
});

describe("no rate is stated by", () => {
  test.each([
    "Microphone sample rate: 44100 Hz",
    "GPS logging rate: 5 Hz",
    "Recording time: 12:30",
    "Sample rate converter: off, 3",
    "Delta T coolant: 12",
    "\u0394T coolant: 12",
    "\u0394T: 12",
    "\u0394T = 12 K",
    "Maximum sample rate of the device: 1000 Hz",
    "Max. sample rate: 1000 Hz",
    "Period: 2",
    "Log date 2026-03-04",
    "Messung Nr 14",
    "Cut-off frequency: 100 Hz",
    "Recording time: 20 s",
    "Recorded time: 20",
    "Time of recording: 20 s",
    "Messzeit: 120 s",
    "Acquisition time: 30",
    "Recording period: 20 s",
    "Log time: 60 s",
    "Messauflösung: 0,01",
    "Sampling rate: 1,000 Hz",
    "Sampling rate: 1 000 Hz",
    "Sampling rate: 1'000 Hz",
    "Sampling interval: 2,500 ms",
  ])("%s", (line) => expect(rateIn(`Bay: 4\n${line}`)).toBeNull());

  test("lines without end, however long they are", () => {
    // Each of these once took minutes: the search goes through the first part of a line only.
    for (const text of [`rate${" ".repeat(200_000)}`, "a".repeat(200_000), "mess".repeat(50_000)])
      expect(rateIn(text)).toBeNull();
  });
});

describe("a rate is found", () => {
  const settings = (n: number) => Array.from({ length: n }, (_, i) => `Setting ${i}: on`).join("\n");

  test("below any number of settings", async () => {
    for (const rate of ["Sampling rate: 20 Hz", "Sample interval (ms): 50"])
      expect(rateIn(`${settings(3000)}\n${rate}`)).toBeCloseTo(20, 9);
    const capture = await read(`${settings(420)}\nSampling rate: 20 Hz\n${csv(sensors, rows)}`);
    expect(lasts(capture, 7.45)).toBe(true);
  });

  test("below any number of lines without a number, in cells apart", () => {
    const remarks = "a remark\n".repeat(50_000);
    expect(rateIn(`${remarks}Sampling rate: 20 Hz`)).toBe(20);
    expect(rateIn(`${remarks}Sample\ntime\n0.05 s`)).toBeNull();
    expect(rateIn(`${remarks}Sample\ntime 0.05 s`)).toBeCloseTo(20, 9);
  });

  test("beside the rows, below as many settings above them", async () => {
    const made = rows.map((row, i) => [...row, ...(i === 0 ? ["Sampling rate", "20", "Hz"] : ["", "", ""])]);
    const capture = await read(`${settings(420)}\n${csv(`${sensors},Item,Value,Unit`, made)}`);
    expect(lasts(capture, 7.45)).toBe(true);
  });
});

describe("beside the first rows", () => {
  /** A hundred rows a second, the last column filled in the rows that are said. */
  const sparse = (isFilled: (row: number) => boolean) =>
    Array.from({ length: 2000 }, (_, i) => [(i / 100).toFixed(2), volts(i / 100)[0]!, isFilled(i) ? 80 + i / 500 : ""]);

  test("a channel that is filled later again is a channel", async () => {
    const { channels } = await read(
      csv(
        "Time (s),O2 B1S1 (V),Coolant (°C)",
        sparse((i) => i % 500 === 0),
      ),
    );
    const coolant = channels.find(({ role }) => role === "coolant-temp");
    expect([...(coolant?.series.samples ?? [])].filter((value) => !Number.isNaN(value))).toEqual([80, 81, 82, 83]);
  });

  test("what stands nowhere else is none", async () => {
    const { channels } = await read(
      csv(
        "Time (s),O2 B1S1 (V),Gain",
        sparse((i) => i < 3),
      ),
    );
    expect(channels.map(({ name }) => name)).toEqual(["O2 B1S1"]);
  });
});

describe("names and marks", () => {
  test("that went through a wrong table are mended, and stand for what they were", async () => {
    const made = rows.map((row, i) => [(i / 20).toFixed(2), 88, ...row]);
    const { channels } = await read(
      csv("Time (s),KÃ¼hlmitteltemperatur (Â°C),Sonde vor Kat (V),Sonde nach Kat (V)", made),
    );
    expect(channels[0]).toMatchObject({ name: "Kühlmitteltemperatur", role: "coolant-temp", unit: "degC" });
  });

  test("rows that are counted by # and end in a delimiter keep their names, and units behind names count", async () => {
    const made = rows.map((row, i) => [i + 1, (i / 20).toFixed(2), ...row, 980 + (i % 5), ""]);
    const capture = await read(csv("#,Time (s),Sonde vor Kat V,Sonde nach Kat V,Saugrohrdruck hPa,", made));
    expect(capture.channels.map(({ role }) => role)).toEqual(["front-o2", "rear-o2", "manifold-pressure"]);
    // 1 hPa = 0.1 kPa (SI).
    expect(channelOf(capture, "manifold-pressure")!.series.samples[0]).toBe(98);
    expect(lasts(capture, 7.45)).toBe(true);
  });

  test("a row of units in which most quantities have none is one", async () => {
    const made = rows.map(([f, r], i) => [(i / 20).toFixed(2), Math.round(1000 * Number(f)), 2, r!]);
    const { channels } = await read(csv("Ora,Sonda a monte,Stato,Sonda a valle\n,mV,,", made));
    expect(channels.map(({ role, fileUnit }) => [role, fileUnit])).toEqual([
      ["front-o2", "mV"],
      ["other", ""],
      ["rear-o2", ""],
    ]);
  });

  test("a sensor whose voltage no switching one gives has no role, and that is said", async () => {
    const made = rows.map(([f, r], i) => [(i / 20).toFixed(2), (2.4 - Number(f)).toFixed(3), r!]);
    const capture = await read(csv("Time (s),Sonde amont (V),Sonde aval (V)", made));
    expect(capture.channels.map(({ role }) => role)).toEqual(["other", "rear-o2"]);
    expect(says(capture, /voltage is that of no switching one/)).toBe(true);
  });

  test("one that switches on a supply of 5 V keeps its role: the findings tell what it is", async () => {
    const noise = (i: number) => 0.03 * Math.sin(1.7 * i);
    const made = rows.map(([, r], i) => [(i / 20).toFixed(2), ((i % 20 < 10 ? 4.6 : 0.35) + noise(i)).toFixed(2), r!]);
    const capture = await read(csv("Time (s),Sonde amont (V),Sonde aval (V)", made));
    expect(capture.channels.map(({ role }) => role)).toEqual(["front-o2", "rear-o2"]);
    expect(analyse(capture).findings.find(({ id }) => id === "front-sensor")!.statement).toMatch(/5 V supply/);
  });

  test.each(["~", "^", ":"])("cells may be set apart by %s", async (mark) => {
    const made = rows.map((row, i) => [(i / 20).toFixed(2), ...row]);
    const { channels } = await read(csv(`Time (s),${sensors}`.replaceAll(",", mark), made, mark));
    expect(channels.map(({ role }) => role)).toEqual(["front-o2", "rear-o2"]);
  });

  test("instants since 1970 in milliseconds are the time of a long table", async () => {
    const made = rows.flatMap((row, i) =>
      ["O2 B1S1", "O2 B1S2"].map((name, k) => [1_764_460_800_000 + 50 * i, name, row[k]!]),
    );
    const capture = await read(csv("ts,sensor,v", made));
    expect(lasts(capture, 7.45)).toBe(true);
    const { samples, time } = channelOf(capture, "front-o2")!.series;
    const apart = Array.from(samples, (value, i) => Math.abs(value - front(timeAt(time, i), 0.31)));
    expect(Math.max(...apart)).toBeLessThan(0.0006);
  });
});

test("a flow in a unit over time that is not known has no usual one taken for it", async () => {
  const of = (unit: string) =>
    read(
      csv(
        `Time (s),Air flow (${unit}),${sensors}`,
        rows.map((row, i) => [i / 20, 36_000 + i, ...row]),
      ),
    );
  // 36000 g/h are 10 g/s.
  expect(channelOf(await of("g/h"), "air-flow")!.series.samples[0]).toBeCloseTo(10, 9);
  const unknown = await of("mL/min");
  expect(channelOf(unknown, "air-flow")).toBeUndefined();
  expect(says(unknown, /no unit is written/)).toBe(false);
});

test("a table that lies on its side is told to", async () => {
  const columns = [["Time (s)", "O2 B1S1 (V)", "O2 B1S2 (V)"], ...rows.map((row, i) => [(i / 20).toFixed(2), ...row])];
  const lying = [0, 1, 2].map((c) => columns.map((row) => row[c]).join(",")).join("\n");
  const outcome = await openBytes(new TextEncoder().encode(lying), {});
  expect(outcome).toMatchObject({
    ok: false,
    problem: { code: "unclear", what: expect.stringContaining("on its side") },
  });
});

test("zeros behind a log, as a recorder leaves them that lost its power, are no part of it", async () => {
  const text = csv(
    `Time (s),${sensors}`,
    rows.map((row, i) => [i / 20, ...row]),
  );
  const bytes = new Uint8Array(text.length + 4096);
  bytes.set(new TextEncoder().encode(text));
  const outcome = await openBytes(bytes, {});
  if (!outcome.ok) throw new Error(outcome.problem.what);
  expect(lasts(outcome.value, 7.45)).toBe(true);
});
