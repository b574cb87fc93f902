// The saved form of a shelf trace: JSON with a version, checked when read back, never guessed.

import { type Outcome, type Problem, ProblemError } from "../../problem.ts";
import {
  type Check,
  checkedAs,
  isRecord,
  list,
  map,
  maybe,
  number,
  numberOrNull,
  oneOf,
  record,
  text,
} from "../record/checks.ts";
import { type ShelfTrace, shelfVersion, shelfWords } from "./shelf-trace.ts";

export const shelfText = (trace: ShelfTrace): string => JSON.stringify(trace);

/** @returns a Problem "newer-version" where a newer program wrote it, "damaged" where it is no shelf trace. */
export function readShelfTrace(saved: unknown, where: string): Outcome<ShelfTrace> {
  try {
    const parsed: unknown = typeof saved === "string" ? JSON.parse(saved) : saved;
    if (isRecord(parsed) && typeof parsed.version === "number" && parsed.version > shelfVersion) {
      return { ok: false, problem: newer(where, parsed.version) };
    }
    return { ok: true, value: checkedAs<ShelfTrace>(shape, parsed, (path) => new ProblemError(damaged(where, path))) };
  } catch (error) {
    return { ok: false, problem: error instanceof ProblemError ? error.problem : damaged(where) };
  }
}

/** The longest text a shelf shows; longer is cut when it comes from elsewhere. */
export const longestWord = 500;

const words: Record<string, Check> = Object.fromEntries(shelfWords.map((key) => [key, text]));
const span = record({ from: number, to: number });
const bank = oneOf(1, 2);
const reading = record({
  value: numberOrNull,
  low: numberOrNull,
  high: numberOrNull,
  unit: text,
  grade: oneOf("measured", "at-least", "at-most", "not-resolvable"),
});
const orNull =
  (check: Check): Check =>
  (v, path) =>
    v === null ? null : check(v, path);
const readings = orNull(map(reading));
const sensor = orNull(record({ kind: text, rate: numberOrNull, polled: oneOf(true, false), woke: reading }));
const liftOff = record({
  id: text,
  at: number,
  frontFall: reading,
  delay: reading,
  storedOxygen: reading,
  richAgain: reading,
  rearSwitch: reading,
  airFlow: numberOrNull,
  engineSpeed: numberOrNull,
  fuelCut: oneOf("proven", "likely", "unknown"),
});
const correction = record({
  role: maybe(text),
  bank: maybe(bank),
  unit: maybe(text),
  gain: number,
  offset: number,
});
const stretch = record({
  from: number,
  to: number,
  kind: text,
  engineSpeed: numberOrNull,
  airFlow: numberOrNull,
  activity: readings,
  front: readings,
  rear: readings,
});

const comparable = record({
  name: text,
  bank,
  front: sensor,
  rear: sensor,
  warmth: oneOf("known", "likely", "unknown"),
  coolant: orNull(reading),
  catalystTemperature: orNull(reading),
  liftOffs: list(liftOff),
  stretches: list(stretch),
  finding: orNull(record({ verdict: oneOf("points-to", "points-away", "cannot-say"), statement: text })),
});

const shape = record({
  version: oneOf(shelfVersion),
  id: text,
  ...words,
  keptAt: text,
  isSimulated: oneOf(true, false),
  captureId: text,
  fileName: text,
  choices: record({ roles: maybe(map(text)), rate: maybe(number), missing: maybe(number), layout: maybe(text) }),
  bank,
  corrections: maybe(map(correction)),
  span: orNull(span),
  comparable,
});

export const newer = (where: string, version: number, known: number = shelfVersion): Problem => ({
  code: "newer-version",
  what: `This shelf trace was kept by a newer Tracewright (format ${version}, this one knows ${known}).`,
  where,
  remedy: "Open it with the newer one. It was left as it is.",
});

const damaged = (where: string, path?: string): Problem => ({
  code: "damaged",
  what: "A shelf trace cannot be read.",
  where: path ? `${where}, ${path}` : where,
  remedy: "It was left as it is; keep the recording anew, or import an earlier export of it.",
});
