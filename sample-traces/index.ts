// The sample traces the page can open: simulated, of an invented car, with a story of one sentence each.

export interface SampleTrace {
  /** As the file is called. */
  readonly file: string;
  readonly name: string;
  readonly story: string;
  readonly kind: "scope" | "polled log";
  /** Where the page finds it; the bytes are gzip where `file` ends in .gz. */
  readonly url: URL;
}

/** The invented job the samples belong to. */
export const sampleJob = {
  name: "Demo job 7, hatchback 1.6",
  notes:
    "Simulated. The lamp is on with P0420. The owner was told to buy a catalyst and asks for proof first. " +
    "Same drive every time: restart, idle, 2,500 1/min standing, cruise, then three times full throttle and release.",
} as const;

const deadScope: SampleTrace = {
  file: "dead-catalyst-scope.csv.gz",
  name: "Dead catalyst, scope",
  story: "The catalyst holds almost no oxygen: after it the signal swings as before it.",
  kind: "scope",
  url: new URL("./dead-catalyst-scope.csv.gz", import.meta.url),
};
const goodScope: SampleTrace = {
  file: "good-catalyst-scope.csv.gz",
  name: "Good catalyst, scope",
  story: "The same car with a sound catalyst: calm behind it, and about one second of air before the rear notices.",
  kind: "scope",
  url: new URL("./good-catalyst-scope.csv.gz", import.meta.url),
};
const deadPolled: SampleTrace = {
  file: "dead-catalyst-polled.csv",
  name: "Dead catalyst, polled log",
  story: "The same drive with the dead catalyst as the car's own module tells it, three rows a second.",
  kind: "polled log",
  url: new URL("./dead-catalyst-polled.csv", import.meta.url),
};
const goodPolled: SampleTrace = {
  file: "good-catalyst-polled.csv",
  name: "Good catalyst, polled log",
  story: "The same drive with the sound catalyst as the car's own module tells it, three rows a second.",
  kind: "polled log",
  url: new URL("./good-catalyst-polled.csv", import.meta.url),
};
const slowFront: SampleTrace = {
  file: "slow-front-sensor-scope.csv.gz",
  name: "Slow front sensor, scope",
  story: "The catalyst is sound; the front sensor is tired and takes a third of a second to follow.",
  kind: "scope",
  url: new URL("./slow-front-sensor-scope.csv.gz", import.meta.url),
};
const rearAsleep: SampleTrace = {
  file: "rear-sensor-asleep-scope.csv.gz",
  name: "Rear sensor never wakes, scope",
  story: "The rear sensor's heater has failed: it shows 0.45 V throughout and says nothing of the catalyst.",
  kind: "scope",
  url: new URL("./rear-sensor-asleep-scope.csv.gz", import.meta.url),
};

export const sampleTraces: readonly SampleTrace[] = [
  deadScope,
  goodScope,
  deadPolled,
  goodPolled,
  slowFront,
  rearAsleep,
];
