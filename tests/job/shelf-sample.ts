// A shelf trace made for the tests of the shelf.

import type { Comparable } from "../../src/exhaust/comparing/comparison.ts";
import type { ShelfTrace } from "../../src/job/shelf/shelf-trace.ts";
import { measured, notResolvable } from "../../src/signal/numbers/reading.ts";

const seconds = measured(1, [0.9, 1.1], "s");
const none = notResolvable("s", "not recorded");

export const comparable: Comparable = {
  name: "Hatchback 1.6",
  bank: 1,
  front: { kind: "narrow-band", rate: 1000, polled: false, woke: none },
  rear: { kind: "narrow-band", rate: 1000, polled: false, woke: none },
  warmth: "likely",
  coolant: measured(90, [89, 91], "degC"),
  catalystTemperature: null,
  liftOffs: [
    {
      id: "1",
      at: 10,
      frontFall: measured(10.2, [10.19, 10.21], "s"),
      delay: seconds,
      storedOxygen: measured(2, [1.8, 2.2], "g"),
      richAgain: none,
      rearSwitch: none,
      airFlow: 8,
      engineSpeed: 3900,
      fuelCut: "likely",
    },
  ],
  stretches: [{ from: 0, to: 9, kind: "idle", engineSpeed: 800, airFlow: 3, activity: null, front: null, rear: null }],
  finding: { verdict: "points-away", statement: "The catalyst stores oxygen." },
};

export const shelfTrace: ShelfTrace = {
  version: 1,
  id: "11111111-1111-4111-8111-111111111111",
  name: "Hatchback 1.6",
  vehicleFamily: "hatchback",
  engineSize: "1.6",
  sensorKind: "zirconia",
  catalystPosition: "under the floor",
  conditions: "warm",
  saidBy: "workshop",
  because: "new catalyst",
  keptAt: "2026-01-02T03:04:05.000Z",
  isSimulated: true,
  captureId: "a".repeat(64),
  fileName: "trace.csv",
  choices: {},
  bank: 1,
  span: null,
  comparable,
};
