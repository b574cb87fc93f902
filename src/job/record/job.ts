// The record of one vehicle's complaint: what is saved, and nothing that can be derived. The fields stand in the schema.

import type { InferOutput } from "valibot";
import type { captureRecord, exhibitRecord, jobSchema, vehicle } from "./schema.ts";
import type {
  anchor,
  benchState,
  channelSettings,
  companion,
  dimension,
  laid,
  lane,
  pictureSettings,
  place,
} from "./schema-bench.ts";
import type { evidence, frozenSheet, handRow, intake, photo, repair, sheetDraft } from "./schema-paper.ts";

export { jobVersion } from "./schema.ts";

/** Nothing of a record is ever changed in place. */
type Frozen<T> = T extends object ? { readonly [K in keyof T]: Frozen<T[K]> } : T;

export type Job = Frozen<InferOutput<typeof jobSchema>>;
export type Vehicle = Frozen<InferOutput<typeof vehicle>>;
export type CaptureRecord = Frozen<InferOutput<typeof captureRecord>>;
export type ExhibitRecord = Frozen<InferOutput<typeof exhibitRecord>>;

export type BenchState = Frozen<InferOutput<typeof benchState>>;
export type Lane = Frozen<InferOutput<typeof lane>>;
export type ChannelSettings = Frozen<InferOutput<typeof channelSettings>>;
export type Anchor = Frozen<InferOutput<typeof anchor>>;
export type Dimension = Frozen<InferOutput<typeof dimension>>;
export type Laid = Frozen<InferOutput<typeof laid>>;
export type PictureSettings = Frozen<InferOutput<typeof pictureSettings>>;
export type Place = Frozen<InferOutput<typeof place>>;
export type Companion = Frozen<InferOutput<typeof companion>>;

export type IntakeRecord = Frozen<InferOutput<typeof intake>>;
export type EvidenceRecord = Frozen<InferOutput<typeof evidence>>;
export type HandRowRecord = Frozen<InferOutput<typeof handRow>>;
export type PhotoRecord = Frozen<InferOutput<typeof photo>>;
export type RepairRecord = Frozen<InferOutput<typeof repair>>;
export type SheetDraft = Frozen<InferOutput<typeof sheetDraft>>;
export type FrozenSheet = Frozen<InferOutput<typeof frozenSheet>>;
