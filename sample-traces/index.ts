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
    "Same drive every time: restart, idle, 2,500 rpm standing, cruise, then three times full throttle and release.",
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

/** A sound car's recording for the shelf, with what a comparison must know. All simulated. */
export interface KnownGoodTrace {
  readonly file: string;
  readonly name: string;
  readonly vehicleFamily: string;
  /** Litres. */
  readonly engineSize: number;
  readonly sensorKind: string;
  readonly catalystPosition: string;
  /** Of the fuel cuts, where stored oxygen is read. */
  readonly conditions: string;
  readonly saidBy: string;
  readonly because: string;
  readonly url: URL;
}

const simulatedGood = {
  sensorKind: "zirconia, narrow-band, heated",
  catalystPosition: "under the floor, one brick between the sensors",
  saidBy: "the simulator",
} as const;

export const knownGoodTraces: readonly KnownGoodTrace[] = [
  {
    ...simulatedGood,
    file: "known-good-hatchback-aged-scope.csv.gz",
    name: "Hatchback 1.6, aged but sound (simulated)",
    vehicleFamily: "hatchback",
    engineSize: 1.6,
    conditions: "Warm. Three lift-offs from about 3900\u00a0rpm, about 8\u00a0g/s of air in the cut.",
    because: "Its catalyst was made to hold 1.3\u00a0g of oxygen: aged, and well able to do its work.",
    url: new URL("./known-good-hatchback-aged-scope.csv.gz", import.meta.url),
  },
  {
    ...simulatedGood,
    file: "known-good-city-car-scope.csv.gz",
    name: "City car 1.0, sound (simulated)",
    vehicleFamily: "city car",
    engineSize: 1,
    conditions: "Warm. Three lift-offs from about 3900\u00a0rpm, about 5\u00a0g/s of air in the cut.",
    because: "Its catalyst was made to hold 1.4\u00a0g of oxygen, as a fresh one of its size.",
    url: new URL("./known-good-city-car-scope.csv.gz", import.meta.url),
  },
  {
    ...simulatedGood,
    file: "known-good-estate-scope.csv.gz",
    name: "Estate 2.0, sound (simulated)",
    vehicleFamily: "estate",
    engineSize: 2,
    conditions: "Warm. Three lift-offs from about 3900\u00a0rpm, about 10\u00a0g/s of air in the cut.",
    because: "Its catalyst was made to hold 2.6\u00a0g of oxygen, as a fresh one of its size.",
    url: new URL("./known-good-estate-scope.csv.gz", import.meta.url),
  },
];
