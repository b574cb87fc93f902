// Made-up sheets: a front sensor that switches, a rear that follows, and a lift-off 0.05 s apart.

import type { ExhibitSheet, SheetLane, SheetLine } from "../../src/report/exhibit/sheet.ts";
import { atMost, measured } from "../../src/signal/numbers/reading.ts";

const from = 25;
const to = 37;
/** Where the front falls. */
export const fall = 31.2;

/** A first-order lag (time constant tau, s) of a target, with a little noise from a fixed generator. */
export function lagged(target: (t: number) => number, tau: number, count = 2400): Pick<SheetLine, "times" | "values"> {
  const times = Float64Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));
  const step = (to - from) / (count - 1);
  let seed = 7;
  let value = target(from);
  const values = times.map((t) => {
    value += (target(t) - value) * Math.min(1, step / tau);
    seed = (seed * 16807) % 2147483647;
    return value + 0.008 * (seed / 2147483647 - 0.5);
  });
  return { times, values };
}

const swing = (t: number): boolean => Math.sin(2 * Math.PI * 1.42 * t) > 0;
const front = lagged(
  (t) => (t < 28.4 ? (swing(t) ? 0.86 : 0.1) : t < fall ? 0.89 : t < 34.4 ? 0.05 : swing(t) ? 0.86 : 0.1),
  0.03,
);
const rear = lagged(
  (t) =>
    t < 28.5 ? (swing(t - 0.1) ? 0.8 : 0.16) : t < fall + 0.05 ? 0.84 : t < 34.5 ? 0.05 : swing(t - 0.1) ? 0.8 : 0.16,
  0.045,
);
const throttle = lagged((t) => (t < 28.3 ? 14 : t < fall ? 93 : 14), 0.08);
const speed = lagged(
  (t) => (t < 28.3 ? 2150 : t < fall ? 2600 + 700 * (t - 28.3) : Math.max(2100, 4600 - 600 * (t - fall))),
  0.2,
);
const air = lagged((t) => (t < 28.3 ? 10 : t < fall ? 62 : 11), 0.25);

const trace = (
  channelId: string,
  label: string,
  look: SheetLine["look"],
  line: Pick<SheetLine, "times" | "values">,
  unit = "V",
): SheetLine => ({
  form: "line",
  source: "own",
  unit,
  channelId,
  label,
  look,
  dense: false,
  ...line,
});

export const sensors: SheetLane = {
  id: "sensors",
  title: "Oxygen sensors",
  unit: "V",
  layers: [
    trace("c1", "front, before the converter", "front", front),
    trace("c2", "rear, after the converter", "rear", rear),
  ],
  scale: [0, 1],
  guides: [0.45],
  share: 3,
};
export const throttleLane: SheetLane = {
  id: "throttle",
  title: "Throttle",
  unit: "%",
  layers: [trace("c3", "pedal", "other", throttle, "%")],
  scale: [0, 100],
  guides: [],
  share: 1,
};
export const speedLane: SheetLane = {
  id: "speed",
  title: "Engine speed",
  unit: "1/min",
  layers: [trace("c4", "crankshaft", "other", speed, "1/min")],
  scale: [1800, 5000],
  guides: [],
  share: 1,
};
export const airLane: SheetLane = {
  id: "air",
  title: "Air flow",
  unit: "g/s",
  layers: [trace("c5", "air meter", "other", air, "g/s")],
  scale: [0, 80],
  guides: [],
  share: 1,
};

export const delay = measured(0.05, [0.04, 0.06], "s", { count: 3 });

export const sheet: ExhibitSheet = {
  paper: "A4",
  headline:
    "Lifting off the throttle: the rear sensor sees air 0.05 s after the front. At this air flow the known-good car took 1.4 s.",
  subline: "The front sensor (thin line) sits before the catalytic converter, the rear sensor (thick line) after it.",
  view: { from, to },
  lanes: [sensors, throttleLane],
  dimensions: [
    {
      id: "d1",
      kind: "time",
      laneId: "sensors",
      from: { time: fall + 0.02, level: 0.45 },
      to: { time: fall + 0.09, level: 0.45 },
      place: 0.64,
      label: "front to rear",
      reading: delay,
    },
  ],
  notes: [],
  shade: null,
  marks: [
    { channelId: "c1", time: fall + 0.02, value: 0.45 },
    { channelId: "c2", time: fall + 0.09, value: 0.45 },
  ],
  readings: [
    { name: "Delay, front to rear", reading: delay },
    { name: "Oxygen passed, gas travel not deducted", reading: atMost(0.16, "g") },
    { name: "Front frequency", reading: measured(1.42, [1.41, 1.44], "Hz") },
    { name: "Amplitude, rear over front", reading: measured(0.84, [0.81, 0.87], "1") },
  ],
  title: {
    job: "Demo job 7",
    vehicle: "hatchback 1.6, 142 300 km",
    plate: null,
    vin: null,
    customer: null,
    recording: "lift-off-scope.csv",
    sha256: "3fa9c21b0d4e5f60718293a4b5c6d7e8f90123456789abcdef00112209ee41d7",
    sampleRate: "2 000 per second",
    recordedAt: "12 Nov 2026, 10:41",
    conditions: "4 600 1/min, 11 g/s, coolant 91 °C",
    settings: ["All channels as recorded.", "Scales fitted to what the sheet shows.", "No filter."],
    sheet: 2,
    sheets: 4,
    revision: 1,
    drawnBy: "Workshop",
    drawnAt: "12 Nov 2026",
  },
};

/** A sheet with more of everything than fits well: four lanes, long names, every tick, notes and a shaded span. */
export const crowded: ExhibitSheet = {
  ...sheet,
  paper: "Letter",
  headline:
    "The rear sensor follows the front in idle, in cruise and under load, and on lifting off the throttle it sees air 0.05 s after the front, while the known-good car of the same family took 1.4 s at the same air flow",
  lanes: [sensors, throttleLane, speedLane, airLane],
  shade: { span: { from: 28.3, to: 31.2 }, label: "full load, rich" },
  notes: [
    {
      id: "n1",
      laneId: "sensors",
      at: { time: 30, level: 0.84 },
      text: "Both sensors rich: the converter is emptied of oxygen here.",
      side: "below-left",
    },
    { id: "n2", laneId: "speed", at: { time: 36.8, level: 2100 }, text: "Idle again", side: "above-right" },
  ],
  dimensions: [
    ...sheet.dimensions,
    {
      id: "d2",
      kind: "level",
      laneId: "sensors",
      from: { time: 26, level: 0.1 },
      to: { time: 26.3, level: 0.86 },
      place: 27.1,
      label: "front swing",
      reading: measured(0.76, [0.75, 0.77], "V"),
    },
    {
      id: "d3",
      kind: "time",
      laneId: "sensors",
      from: { time: 31.3, level: 0.1 },
      to: { time: 34.45, level: 0.1 },
      place: 0.25,
      label: "fuel cut",
      reading: measured(3.13, [3.11, 3.15], "s"),
    },
  ],
  readings: [
    ...sheet.readings,
    ...sheet.readings.map(({ name, reading }) => ({ name: `In cruise, 20 … 55 s, at 2 500 1/min: ${name}`, reading })),
  ],
  title: {
    ...sheet.title,
    job: "A job whose name is a good deal longer than its cell is wide",
    vehicle: "Hatchback with the 1.6 engine, automatic gearbox, 142 300 km, second owner, tow bar",
    plate: "AB CD 1234",
    vin: "12345678901234567",
    customer: "A. Customer, Long Name and Daughters, Carriers",
    recording: "2026-11-12 hatchback third try after warm-up lift-off at 4600 channel A and B scope.csv.gz",
    sampleRate: "2 000 per second for both sensors, 10 for the rest",
    conditions: "4 600 1/min, 11 g/s, coolant 91 °C, after ten minutes of motorway at a held speed",
    settings: [
      "Front: × 10 + 0.012 V.",
      "Rear: sign inverted, then + 0.45 V.",
      "“O2 Bank 1 Sensor 2 Voltage” taken for the rear sensor by hand; unit set from mV to V.",
      ...Array.from({ length: 8 }, (_, i) => `Channel ${i + 3}: × 1.${i} + 0.5 of whatever it was recorded in.`),
    ],
  },
};
