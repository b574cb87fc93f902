// What a recording can be compared with, and how it is brought to hand.

import { type KnownGoodTrace, knownGoodTraces } from "../../../sample-traces/index.ts";
import type { CaptureSummary } from "../../../workers/protocol.ts";
import type { Comparable } from "../../exhaust/comparing/comparison.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import type { CaptureRecord } from "../../job/record/job.ts";
import type { ShelfTrace, ShelfWords } from "../../job/shelf/shelf-trace.ts";
import { type Outcome, type Problem, ProblemError, settle } from "../../problem.ts";
import { atHand, broughtToHand, good } from "../core/at-hand.ts";
import { type Hands, measuredOn } from "../core/measured-on.ts";

export type Choice =
  | { readonly kind: "shelf"; readonly trace: ShelfTrace }
  | { readonly kind: "sample"; readonly trace: KnownGoodTrace }
  | { readonly kind: "job"; readonly record: CaptureRecord };

export interface Reference {
  /** "shelf:ID", "sample:FILE", "job:CAPTURE-ID" */
  readonly key: string;
  readonly name: string;
  readonly kind: Choice["kind"];
  readonly isSimulated: boolean;
  readonly summary: CaptureSummary;
  readonly comparable: Comparable;
  /** The known-good part; null: all of it. */
  readonly span: Span | null;
}

export function keyOf(choice: Choice): string {
  if (choice.kind === "shelf") return `shelf:${choice.trace.id}`;
  return choice.kind === "sample" ? `sample:${choice.trace.file}` : `job:${choice.record.id}`;
}

/** The choice a saved key names; null where it is gone. */
export function choiceOf(key: string, shelf: readonly ShelfTrace[], records: readonly CaptureRecord[]): Choice | null {
  const id = key.slice(key.indexOf(":") + 1);
  const trace = shelf.find((one) => one.id === id);
  if (key.startsWith("shelf:")) return trace ? { kind: "shelf", trace } : null;
  const sample = knownGoodTraces.find(({ file }) => file === id);
  if (key.startsWith("sample:")) return sample ? { kind: "sample", trace: sample } : null;
  const record = records.find((one) => one.id === id);
  return record ? { kind: "job", record } : null;
}

export function wordsOf({ engineSize, ...trace }: KnownGoodTrace): ShelfWords {
  return { ...trace, engineSize: `${engineSize}` };
}

/**
 * Brings the samples to hand and the comparable with them; measured only where it was not kept.
 *
 * @returns a Problem "cancelled" where it was given up while it was to be measured.
 */
export function fetchReference(choice: Choice, hands: Hands): Promise<Outcome<Reference>> {
  return settle(async () => {
    if (choice.kind === "shelf") return fromShelf(choice.trace, hands);
    return choice.kind === "sample" ? fromSample(choice.trace, hands) : fromJob(choice.record, hands);
  });
}

async function fromShelf(trace: ShelfTrace, hands: Hands): Promise<Reference> {
  const summary = await atHand(trace, hands.captures);
  return { ...about({ kind: "shelf", trace }, trace.name, trace.isSimulated), summary, ...withPart(trace) };
}

/** Of a trace kept in part, only what lies in the part counts. */
const withPart = ({ comparable, span }: ShelfTrace) => ({ comparable, span });

async function fromSample(trace: KnownGoodTrace, hands: Hands): Promise<Reference> {
  const response = await fetch(trace.url).catch(() => null);
  if (!response?.ok) throw new ProblemError(notLoaded(trace.file));
  const summary = good(await hands.captures.open(await response.blob(), trace.file, {}));
  const comparable = await measuredOn(summary, hands);
  return { ...about({ kind: "sample", trace }, trace.name, true), summary, comparable, span: null };
}

async function fromJob(record: CaptureRecord, hands: Hands): Promise<Reference> {
  const summary = good(await broughtToHand(record, hands.captures));
  const comparable = await measuredOn(summary, hands, record);
  return { ...about({ kind: "job", record }, record.fileName, false), summary, comparable, span: null };
}

const about = (choice: Choice, name: string, isSimulated: boolean) => ({
  key: keyOf(choice),
  kind: choice.kind,
  name,
  isSimulated,
});

const notLoaded = (where: string): Problem => ({
  code: "unreadable",
  what: "The sample trace could not be loaded.",
  where,
  remedy: "Reload the page; if that does not help, build it again.",
});
