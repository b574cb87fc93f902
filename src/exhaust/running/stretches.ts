// The capture divided into stretches of one kind of running.

import type { Span, StretchEdit, StretchKind } from "../terms/analysis.ts";
import { anew } from "../terms/remembered.ts";
import type { CellKind, Cells } from "./running.ts";
import { cellsOf, kindsOf, type RunningInput } from "./running.ts";

/** A stretch before anything is measured in it. */
export interface PlainStretch extends Span {
  readonly kind: StretchKind;
  /** Steady, but nothing recorded says at what engine speed: `kind` is "unsteady" then. */
  readonly speedUnknown: boolean;
  readonly origin: "found" | "user";
  readonly readAs: StretchKind;
}

/** Shorter pieces, s, join what is around them: too short to be a kind of running of their own. */
const leastLength: Readonly<Record<CellKind, number>> = {
  "not-running": 1,
  cold: 1,
  idle: 4,
  cruise: 4,
  load: 1,
  overrun: 0.75,
  unsteady: 1,
  unknown: 4,
  gap: 0,
};

/**
 * Told from engine speed, throttle, road speed, load, coolant, catalyst temperature and fuel status where present, and from
 * the sensors alone where not. Spans without any sensor sample belong to no stretch.
 *
 * @returns in order of time, not overlapping.
 */
export function findStretches(input: RunningInput, edits: readonly StretchEdit[] = []): PlainStretch[] {
  const { channels, span, limits, recall = anew } = input;
  const cells = recall("cells of running", [], limits, (used) => cellsOf(channels, span, used));
  const found = settled(runs(kindsOf(cells, input)), cells.grid.step);
  return withEdits(found.map((run) => plain(run, cells, span)).filter(isStretch), edits);
}

interface Run {
  kind: CellKind;
  from: number;
  to: number;
}

function runs(kinds: readonly CellKind[]): Run[] {
  const list: Run[] = [];
  kinds.forEach((kind, i) => {
    const last = list.at(-1);
    if (last?.kind === kind) last.to = i + 1;
    else list.push({ kind, from: i, to: i + 1 });
  });
  return list;
}

/** Flickers between two pieces of one kind join them; other short pieces become unsteady; equal neighbours join. */
function settled(list: readonly Run[], step: number): Run[] {
  const isShort = ({ kind, from, to }: Run) => (to - from) * step < leastLength[kind];
  const bridged = list.map((run, i): Run => {
    const [before, after] = [list[i - 1], list[i + 1]];
    const flickers = isShort(run) && before && before.kind === after?.kind && !isShort(before) && !isShort(after);
    return flickers ? { ...run, kind: before.kind } : run;
  });
  const long = joined(bridged).map((run): Run => (isShort(run) ? { ...run, kind: "unsteady" } : run));
  return joined(long);
}

function joined(list: readonly Run[]): Run[] {
  const result: Run[] = [];
  for (const run of list) {
    const last = result.at(-1);
    if (last?.kind === run.kind) last.to = run.to;
    else result.push({ ...run });
  }
  return result;
}

function plain(run: Run, { grid }: Cells, span: Span): PlainStretch | null {
  if (run.kind === "gap") return null;
  const speedUnknown = run.kind === "unknown";
  const kind = speedUnknown ? "unsteady" : (run.kind as StretchKind);
  return {
    kind,
    readAs: kind,
    speedUnknown,
    from: grid.from + run.from * grid.step,
    to: Math.min(span.to, grid.from + run.to * grid.step),
    origin: "found",
  };
}

const isStretch = (stretch: PlainStretch | null): stretch is PlainStretch => stretch !== null;

/** Each edit takes its span; what it covers is cut back or falls away. */
function withEdits(found: readonly PlainStretch[], edits: readonly StretchEdit[]): PlainStretch[] {
  let list = [...found];
  for (const { from, to, kind } of edits) {
    if (!(to > from)) continue;
    const pieces = list.flatMap((one) => [
      { ...one, to: Math.min(one.to, from) },
      { ...one, from: Math.max(one.from, to) },
    ]);
    const readAs = mostOf(found, { from, to });
    const edited: PlainStretch = { from, to, kind, readAs, speedUnknown: false, origin: "user" };
    list = [...pieces.filter((one) => one.to > one.from), edited];
  }
  return list.sort((a, b) => a.from - b.from);
}

/** The kind of the found stretch that fills most of the span; "unsteady" where none was found. */
function mostOf(found: readonly PlainStretch[], span: Span): StretchKind {
  const shared = ({ from, to }: Span) => Math.min(to, span.to) - Math.max(from, span.from);
  const most = found.reduce<PlainStretch | null>(
    (best, one) => (best && shared(best) >= shared(one) ? best : one),
    null,
  );
  return most && shared(most) > 0 ? most.kind : "unsteady";
}
