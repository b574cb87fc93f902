// Whether a parsed value has the shape of a job. The first thing that does not fit is named.

import { roles } from "../../capture/model/capture.ts";
import { stretchKinds } from "../../exhaust/terms/analysis.ts";
import { ProblemError } from "../../problem.ts";
import { type Check, either, isRecord, list, map, maybe, number, numberOrNull, oneOf, record, text } from "./checks.ts";
import type { Job } from "./job.ts";

const bank = oneOf(1, 2);
const pair: Check = (v, path) => list(number)(v, path) ?? (Array.isArray(v) && v.length === 2 ? null : path);

const reading = record({
  value: numberOrNull,
  low: numberOrNull,
  high: numberOrNull,
  unit: text,
  grade: oneOf("measured", "at-least", "at-most", "not-resolvable"),
});

const anchor = record({
  time: number,
  level: number,
  snap: maybe(record({ channelId: text, to: oneOf("crossing", "extreme", "sample"), low: number, high: number })),
});

const dimension = record({
  id: text,
  kind: oneOf("time", "level"),
  laneId: text,
  from: anchor,
  to: anchor,
  place: number,
  label: text,
  reading,
});

const settings = record({
  role: maybe(oneOf(...roles)),
  bank: maybe(bank),
  unit: maybe(text),
  label: maybe(text),
  gain: number,
  offset: number,
});

const liftOffEdit: Check = (v, path) =>
  record({ kind: oneOf("add", "move", "reject", "accept"), id: text })(v, path) ??
  (isRecord(v) && (v.kind === "add" || v.kind === "move") ? number(v.at, `${path}.at`) : null) ??
  (isRecord(v) && v.kind === "reject" ? text(v.because, `${path}.because`) : null);

const shift = record({
  shift: reading,
  by: oneOf("event", "correlation", "hand"),
  says: text,
  ambiguousBy: numberOrNull,
});

const laid = record({
  shift: maybe(shift),
  picture: maybe(
    record({
      place: maybe(oneOf("behind", "below")),
      scale: maybe(oneOf("common", "each")),
      difference: maybe(oneOf(true, false)),
    }),
  ),
  parts: maybe(
    list(
      record({
        of: oneOf("lift-off", ...stretchKinds),
        what: text,
        suspect: list(text),
        reference: list(text),
      }),
    ),
  ),
});

const bench = record({
  lanes: list(record({ id: text, channelIds: list(text), scale: either(oneOf("fit"), pair), share: number })),
  hidden: list(text),
  channels: map(settings),
  cursors: list(dimension),
  dimensions: list(dimension),
  liftOffEdits: list(liftOffEdit),
  stretchEdits: maybe(list(record({ from: number, to: number, kind: oneOf(...stretchKinds) }))),
  compared: maybe(text),
  banded: maybe(list(text)),
  laid: maybe(laid),
  companions: maybe(list(record({ captureId: text, shift }))),
  bank,
});

const job = record({
  id: text,
  limits: maybe(map(number)),
  pipe: maybe(record({ litres: number, kelvin: maybe(number) })),
  name: text,
  notes: text,
  vehicle: record({ description: text, codes: text, odometer: text, plate: text, vin: text, customer: text }),
  createdAt: text,
  changedAt: text,
  lookedAt: maybe(text),
  captures: list(record({ id: text, fileName: text, sha256: text, size: number, choices: record({}), bench })),
  exhibits: list(
    record({
      id: text,
      captureId: text,
      revision: number,
      headline: text,
      madeAt: text,
      paper: oneOf("A4", "Letter"),
      revises: maybe(text),
      svg: text,
      png: text,
    }),
  ),
});

/** @throws ProblemError "damaged" that names the first thing out of shape. */
export function checkJob(value: Record<string, unknown>, where: string): Job {
  const fault = job(value, "job");
  if (fault === null) return value as unknown as Job;
  throw new ProblemError({
    code: "damaged",
    what: "This saved job is damaged.",
    where: `${where}, ${fault}`,
    remedy: "Take an earlier copy of the bundle; the recordings themselves can still be opened as they are.",
  });
}
