// What several parts of a record are made of: texts, ids, lists of bounded size, readings, shifts, and how a file was read.

import * as v from "valibot";
import { roles } from "../../capture/model/capture.ts";
import type { Unit } from "../../signal/numbers/reading.ts";
import { longest, most } from "./sizes.ts";

export const text = (length: number) => v.pipe(v.string(), v.maxLength(length));
export const label = text(longest.label);
export const sentence = text(longest.sentence);
export const number = v.pipe(v.number(), v.finite());
export const count = v.pipe(v.number(), v.safeInteger(), v.minValue(0));
/** ISO 8601. */
export const stamp = v.pipe(v.string(), v.maxLength(40), v.isoTimestamp());
/** Names something in the record. */
export const id = v.pipe(v.string(), v.minLength(1), v.maxLength(longest.id));
/** Names something in storage or in a zip as well: no folders, nothing hidden. */
export const storedName = v.pipe(v.string(), v.maxLength(200), v.regex(/^(?![.])[\w.-]+$/));

/** The length is looked at before any entry is. */
export const list = <T extends v.GenericSchema>(each: T, length: number) =>
  v.pipe(v.array(v.unknown()), v.maxLength(length), v.array(each));

/** The same for a record of any keys. */
export const map = <T extends v.GenericSchema>(each: T, length: number) =>
  v.pipe(v.record(v.string(), v.unknown()), v.maxEntries(length), v.record(text(longest.label), each));

export const bank = v.picklist([1, 2]);
export const role = v.picklist(roles);

/** A unit outside the set of the readings passes through as the file names it. */
const unit = label as unknown as v.GenericSchema<string, Unit>;

export const reading = v.object({
  value: v.nullable(number),
  low: v.nullable(number),
  high: v.nullable(number),
  unit,
  grade: v.picklist(["measured", "at-least", "at-most", "not-resolvable"]),
  because: v.exactOptional(sentence),
  count: v.exactOptional(number),
});

export const shift = v.object({
  shift: reading,
  by: v.picklist(["event", "correlation", "hand"]),
  way: v.exactOptional(sentence),
  says: sentence,
  ambiguousBy: v.nullable(number),
});

/** How a file was read: see ReadChoices. */
export const readChoices = v.object({
  roles: v.exactOptional(map(role, most.channels)),
  units: v.exactOptional(map(label, most.channels)),
  bank: v.exactOptional(bank),
  rate: v.exactOptional(number),
  missing: v.exactOptional(number),
  hasHeader: v.exactOptional(v.boolean()),
  delimiter: v.exactOptional(text(10)),
  decimalMark: v.exactOptional(v.picklist([".", ","])),
  timeColumn: v.exactOptional(label),
  dateOrder: v.exactOptional(v.picklist(["day-first", "month-first"])),
  disorder: v.exactOptional(v.picklist(["leave-out", "sort"])),
  timeUnit: v.exactOptional(number),
  rowsAreSimultaneous: v.exactOptional(v.boolean()),
  member: v.exactOptional(text(longest.fileName)),
  layout: v.exactOptional(label),
});
