// What stands in a job beside its recordings: intake, evidence, other causes, the repair, and the customer's sheets.

import * as v from "valibot";
import { handCauses } from "../../exhaust/terms/hand-checks.ts";
import { evidenceItems } from "../evidence/evidence.ts";
import { lampStates } from "../intake/intake.ts";
import { parameterIds } from "../parameters/parameters.ts";
import { count, label, list, number, sentence, stamp, storedName, text } from "./schema-parts.ts";
import { longest, most } from "./sizes.ts";

export const intake = v.object({
  complaint: sentence,
  lamp: v.picklist(lampStates),
  since: label,
  recentWork: sentence,
  fittedParts: sentence,
  fuelAndOil: sentence,
  authority: sentence,
  cap: label,
  engineSize: label,
  banks: v.picklist(["", "1", "2"]),
  technician: label,
  date: label,
});

/** An item that this program does not know is left out. */
const parameterValues = v.object(Object.fromEntries(parameterIds.map((id) => [id, v.exactOptional(number)])));

const states = v.array(v.picklist(["stored", "pending", "permanent"]));
const faultCode = v.object({ code: v.pipe(v.string(), v.regex(/^[PCBU][0-3][0-9A-F]{3}$/)), states });

export const evidence = v.object({
  codes: list(faultCode, most.codes),
  answered: states,
  frame: v.nullable(v.object({ code: label, values: parameterValues })),
  status: parameterValues,
  readiness: v.pipe(v.array(count), v.maxLength(4)),
  readinessOf: v.picklist(["since-clear", "this-drive", "as-typed"]),
  calibration: label,
  monitorReplies: text(longest.notes),
  declined: v.array(v.picklist(evidenceItems)),
});

export const handRow = v.object({
  cause: v.picklist(handCauses),
  result: v.picklist(["not-done", "in-order", "at-fault"]),
  value: sentence,
  by: label,
  at: label,
  photos: list(storedName, most.photos),
});

export const repair = v.object({ what: sentence, at: label, by: label });

/** A photo kept with the job, as it was taken; `id` is the SHA-256 of its bytes. */
export const photo = v.object({ id: storedName, name: label, type: label, size: count });

/** A way to go on, with the technician's own price, as typed. */
const choice = v.object({ id: storedName, what: sentence, price: label });

/** What is typed for the customer's sheet. */
export const sheetDraft = v.object({
  words: sentence,
  choices: list(choice, most.choices),
  paper: v.picklist(["A4", "Letter"]),
  ticks: v.object({ plate: v.boolean(), vin: v.boolean(), customer: v.boolean() }),
  workshop: label,
  approval: v.object({ chosen: label, by: label, at: label, amount: label, how: label }),
});

/** A sheet as it was given away: plain words, frozen. A change makes the next revision. */
export const frozenSheet = v.object({
  id: storedName,
  revision: count,
  madeAt: stamp,
  paper: v.picklist(["A4", "Letter"]),
  title: sentence,
  about: list(v.tuple([label, sentence]), most.lines),
  answer: sentence,
  sure: sentence,
  sections: list(v.object({ heading: label, lines: list(sentence, most.lines) }), most.lines),
  choices: list(v.object({ what: sentence, price: label }), most.choices),
  approval: sentence,
  /** Name of the kept picture; null for none. */
  picture: v.nullable(storedName),
  /** Which recording the picture shows, where the job has several. */
  pictured: v.exactOptional(sentence),
  /** Photos of other causes, and what each shows. */
  photos: v.exactOptional(list(v.object({ name: storedName, of: label }), most.photosOnSheet)),
});
