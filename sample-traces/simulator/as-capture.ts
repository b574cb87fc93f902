// A recording as the capture that a reader would make of its file, without the file.

import type { Capture, Channel, Role } from "../../src/capture/model/capture.ts";
import type { TimeBase } from "../../src/signal/series/series.ts";
import type { RecordedColumn, Recording } from "./recorder.ts";
import type { Quantity } from "./run.ts";

const kinds: Record<Quantity, readonly [name: string, role: Role, unit: string]> = {
  frontVoltage: ["Front O2 sensor", "front-o2", "V"],
  rearVoltage: ["Rear O2 sensor", "rear-o2", "V"],
  throttle: ["Throttle", "throttle", "%"],
  engineSpeed: ["Engine speed", "engine-speed", "1/min"],
  roadSpeed: ["Road speed", "road-speed", "km/h"],
  airFlow: ["Air flow", "air-flow", "g/s"],
  engineLoad: ["Engine load", "engine-load", "%"],
  manifoldPressure: ["Manifold pressure", "manifold-pressure", "kPa"],
  coolant: ["Coolant temperature", "coolant-temp", "degC"],
  shortTrim: ["Short fuel trim", "short-trim", "%"],
  longTrim: ["Long fuel trim", "long-trim", "%"],
  fuelStatus: ["Fuel status", "fuel-status", "1"],
  catalystTemperature: ["Catalyst temperature", "catalyst-temp", "degC"],
};

/** @param ownStamps each channel keeps the times its values were really taken, as a log with a stamp per value does. */
export function asCapture(recording: Recording, name: string, ownStamps = false): Capture {
  const shared = sharedTime(recording);
  const channels = recording.columns.map((column, c): Channel => {
    const [channelName, role, unit] = kinds[column.quantity];
    const time = ownStamps && column.taken ? ownTime(column) : shared;
    return {
      id: `c${c + 1}`,
      name: channelName,
      unit,
      fileUnit: unit,
      role,
      bank: 1,
      series: { time, samples: column.samples },
      polled: recording.kind === "polled" && !ownStamps,
    };
  });
  return { name, format: "simulated", startedAt: null, channels, remarks: [] };
}

/** A scope samples evenly; a value of a polled row may be one row older than the row's stamp. */
function sharedTime({ kind, stamps }: Recording): TimeBase {
  if (kind === "scope") return { kind: "even", start: 0, step: stamps[1]! - stamps[0]!, count: stamps.length };
  const steps = stamps.map((seconds, i) => seconds - (stamps[i - 1] ?? 0)).subarray(1);
  steps.sort();
  const row = steps[Math.floor(steps.length / 2)] ?? 0;
  return { kind: "stamped", stamps, doubt: { early: row, late: 0 } };
}

function ownTime(column: RecordedColumn): TimeBase {
  return { kind: "stamped", stamps: column.taken! };
}
