// The list of sample files: which car, which recorder, which dialect.

import { type Dialect, writeDelimited } from "./delimited.ts";
import { type DemoCar, demoCars } from "./demo-cars.ts";
import { dialects } from "./dialects.ts";
import { seededRandom } from "./random.ts";
import { type PollSpec, recordPolled, recordScope, type ScopeSpec } from "./recorder.ts";
import { type History, runCar } from "./run.ts";
import { type Truth, tellTruth } from "./truth.ts";

export interface SampleFile {
  readonly name: string;
  readonly car: DemoCar;
  /** For the recorder's chance: noise and jitter. */
  readonly seed: number;
  readonly recorder: ScopeSpec | PollSpec;
  readonly dialect: Dialect;
}

const scope: ScopeSpec = {
  kind: "scope",
  rate: 1000,
  from: 0.4,
  to: 206,
  noise: 0.003,
  resolution: 0.005,
  channels: ["frontVoltage", "rearVoltage", "throttle", "engineSpeed", "airFlow", "coolant"],
};
const polled: PollSpec = {
  kind: "polled",
  requestsPerSecond: 33,
  jitter: 0.12,
  from: 0.4,
  to: 206,
  channels: [
    "frontVoltage",
    "rearVoltage",
    "engineSpeed",
    "throttle",
    "airFlow",
    "roadSpeed",
    "coolant",
    "shortTrim",
    "longTrim",
    "fuelStatus",
  ],
  missed: 0.04,
};

/** Recorded from warm: without the start, and without the coolant that would tell when it is over. */
const warm: ScopeSpec = { ...scope, from: 33, channels: scope.channels.slice(0, 5) };

/** For the shelf: enough for every reading, and small. */
const shelf: ScopeSpec = { ...warm, rate: 250 };

export const sampleFiles: readonly SampleFile[] = [
  { name: "good-catalyst-scope", car: "good", seed: 11, recorder: scope, dialect: dialects.plainScope },
  { name: "good-catalyst-polled", car: "good", seed: 12, recorder: polled, dialect: dialects.plainLog },
  { name: "dead-catalyst-scope", car: "dead", seed: 31, recorder: scope, dialect: dialects.plainScope },
  { name: "dead-catalyst-polled", car: "dead", seed: 32, recorder: polled, dialect: dialects.plainLog },
  { name: "worn-catalyst-scope", car: "worn", seed: 21, recorder: warm, dialect: dialects.decimalComma },
  {
    name: "worn-catalyst-polled",
    car: "worn",
    seed: 22,
    recorder: { ...polled, requestsPerSecond: 22 },
    dialect: dialects.decimalCommaLog,
  },
  { name: "slow-front-sensor-scope", car: "slowFront", seed: 41, recorder: warm, dialect: dialects.millivolts },
  {
    name: "slow-front-sensor-polled",
    car: "slowFront",
    seed: 42,
    recorder: { ...polled, requestsPerSecond: 48 },
    dialect: dialects.clockLog,
  },
  { name: "leak-ahead-of-sensor-scope", car: "leak", seed: 51, recorder: warm, dialect: dialects.preamble },
  { name: "leak-ahead-of-sensor-polled", car: "leak", seed: 52, recorder: polled, dialect: dialects.tabLog },
  {
    name: "rear-sensor-asleep-scope",
    car: "rearAsleep",
    seed: 61,
    recorder: { ...scope, rate: 500 },
    dialect: dialects.tabbed,
  },
  {
    name: "rear-sensor-asleep-polled",
    car: "rearAsleep",
    seed: 62,
    recorder: { ...polled, requestsPerSecond: 20 },
    dialect: dialects.unitRowLog,
  },
  { name: "known-good-hatchback-aged-scope", car: "agedGood", seed: 71, recorder: shelf, dialect: dialects.plainScope },
  { name: "known-good-city-car-scope", car: "smallGood", seed: 81, recorder: shelf, dialect: dialects.plainScope },
  { name: "known-good-estate-scope", car: "estateGood", seed: 91, recorder: shelf, dialect: dialects.plainScope },
];

export interface MadeSample {
  readonly text: string;
  readonly truth: Truth;
}

/** The same for every call. A drive already run may be handed in. */
export function makeSample(file: SampleFile, history: History = runCar(demoCars[file.car])): MadeSample {
  const random = seededRandom(file.seed);
  const { recorder } = file;
  const recording =
    recorder.kind === "scope" ? recordScope(history, recorder, random) : recordPolled(history, recorder, random);
  return { text: writeDelimited(recording, file.dialect), truth: tellTruth(history, recording.start) };
}
