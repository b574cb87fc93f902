// The one description of a saved job: what is checked when it is read, before it is written, and its type (job.ts).

import * as v from "valibot";
import { defaultLimits, type LimitOverrides } from "../../exhaust/terms/limits.ts";
import { benchState } from "./schema-bench.ts";
import { evidence, frozenSheet, handRow, intake, photo, repair, sheetDraft } from "./schema-paper.ts";
import { count, id, label, list, number, readChoices, sentence, stamp, storedName, text } from "./schema-parts.ts";
import { longest, most } from "./sizes.ts";

/** Raise it with a step in format.ts and a golden file of the version before. */
export const jobVersion = 4;

/** All free text; plate, VIN and customer stay off every exhibit unless ticked. */
export const vehicle = v.object({
  description: label,
  codes: sentence,
  odometer: label,
  plate: label,
  vin: label,
  customer: label,
});

/** One recording kept with the job, and how the user looks at it. */
export const captureRecord = v.object({
  /** SHA-256 of the file, hex. */
  id: storedName,
  fileName: text(longest.fileName),
  sha256: label,
  /** Bytes. */
  size: count,
  /** It was computed, not recorded on a car. */
  isSimulated: v.exactOptional(v.literal(true)),
  /** What a person said it is; never inferred. */
  stage: v.exactOptional(v.picklist(["before", "after", "donor"])),
  running: v.exactOptional(v.picklist(["idle", "drive"])),
  /** When it was recorded, as chosen: a local date and time. */
  recordedAt: v.exactOptional(label),
  choices: readChoices,
  bench: benchState,
});

/** A frozen picture. A change makes a new one with a higher revision. */
export const exhibitRecord = v.object({
  id: storedName,
  captureId: storedName,
  revision: count,
  headline: sentence,
  madeAt: stamp,
  paper: v.picklist(["A4", "Letter"]),
  /** Id of the exhibit of which this is the next revision. */
  revises: v.exactOptional(storedName),
  /** It shows where a sound catalyst's rear would have stayed. */
  sound: v.exactOptional(v.boolean()),
  /** Names of the kept blobs. */
  svg: storedName,
  png: storedName,
});

const isEachOnce = (all: readonly { readonly id: string }[]) => new Set(all.map((one) => one.id)).size === all.length;

const captures = list(captureRecord, most.captures);
const exhibits = list(exhibitRecord, most.exhibits);

/** A limit that this program does not know is left out. */
const limits = v.object(
  Object.fromEntries(Object.keys(defaultLimits).map((name) => [name, v.exactOptional(number)])),
) as unknown as v.GenericSchema<LimitOverrides>;

export const jobSchema = v.object({
  version: v.literal(jobVersion),
  id: storedName,
  name: text(longest.name),
  notes: text(longest.notes),
  vehicle,
  createdAt: stamp,
  changedAt: stamp,
  captures: v.pipe(captures, v.check<v.InferOutput<typeof captures>>(isEachOnce)),
  /** The recording looked at last; the newest where it is absent or gone. */
  lookedAt: v.exactOptional(id),
  exhibits: v.pipe(exhibits, v.check<v.InferOutput<typeof exhibits>>(isEachOnce)),
  /** Limits changed for this job; the rest as delivered. */
  limits: v.exactOptional(limits),
  /** Gas volume between front and rear sensor, and its usual temperature, where they were measured. */
  pipe: v.exactOptional(v.object({ litres: number, kelvin: v.exactOptional(number) })),
  intake: v.exactOptional(intake),
  /** What the car told before codes were cleared, and after the repair. */
  evidence: v.exactOptional(v.object({ before: evidence, after: evidence })),
  ruledOut: v.exactOptional(list(handRow, most.lines)),
  photos: v.exactOptional(list(photo, most.photos)),
  repair: v.exactOptional(repair),
  sheet: v.exactOptional(sheetDraft),
  sheets: v.exactOptional(list(frozenSheet, most.sheets)),
});
