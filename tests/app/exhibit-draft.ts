// A bench as it would be handed to the exhibit dialog; recorded by nobody.

import type { ExhibitDraft } from "../../src/app/exhibits/types.ts";
import { asRead } from "../../src/capture/model/take.ts";
import { linesOf } from "../../src/drawing/layer.ts";
import { newJob } from "../../src/job/edits/make.ts";
import type { CaptureRecord, Job } from "../../src/job/record/job.ts";
import { measured } from "../../src/signal/numbers/reading.ts";
import type { ChannelSummary } from "../../workers/protocol.ts";
import { sheet } from "../report/samples.ts";

const sha256 = sheet.title.sha256;

const channel = (id: string, name: string, role: ChannelSummary["role"], unit: string): ChannelSummary => ({
  id,
  name,
  role,
  unit,
  fileUnit: unit,
  bank: 1,
  polled: false,
  samples: 24000,
  rate: measured(2000, [2000, 2000], "Hz"),
  from: 0,
  to: 60,
  range: [0, 1],
});

export const record: CaptureRecord = {
  id: sha256,
  fileName: "lift-off-scope.csv",
  sha256,
  size: 1000,
  choices: {},
  bench: { lanes: [], hidden: [], channels: {}, cursors: [], dimensions: [], liftOffEdits: [], bank: 1 },
};

export const job: Job = {
  ...newJob("j1", "2026-11-12T10:00:00.000Z", "Demo job 7"),
  vehicle: {
    description: "hatchback 1.6",
    codes: "P0420",
    odometer: "142300 km",
    plate: "AB CD 123",
    vin: "12345678901234567",
    customer: "A. Customer",
  },
  captures: [record],
};

export const draft: ExhibitDraft = {
  job,
  record,
  summary: {
    id: sha256,
    take: asRead(sha256, {}),
    name: record.fileName,
    size: 1000,
    format: "delimited text",
    startedAt: "2026-11-12T10:41:07",
    span: { from: 0, to: 60 },
    channels: [
      channel("c1", "Sensor 1", "front-o2", "V"),
      channel("c2", "Sensor 2", "rear-o2", "V"),
      channel("c3", "Pedal", "throttle", "%"),
    ],
    remarks: [],
    warnings: [],
  },
  view: sheet.view,
  lanes: sheet.lanes.map(({ id, title, unit, guides, share, layers }) => ({
    ...{ id, title, unit, guides, share, scale: "fit" as const },
    layers,
  })),
  windows: sheet.lanes.flatMap(linesOf),
  dimensions: sheet.dimensions,
  liftOff: null,
  readings: sheet.readings,
  evidence: sheet.marks,
  finding: null,
  conditions: { engineSpeed: 4600, airFlow: 11.2, coolant: 91 },
};
