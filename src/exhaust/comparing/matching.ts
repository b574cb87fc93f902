// Parts of two recordings that compare fairly with each other, where the whole does not.

import type { StretchKind } from "../terms/analysis.ts";
import type { Limits } from "../terms/limits.ts";
import { type Comparable, type Concern, type MatchingPart, stretchId } from "./comparison.ts";

/** How the engine ran; null where not recorded. */
interface Running {
  readonly id: string;
  readonly airFlow: number | null;
  readonly engineSpeed: number | null;
}

/**
 * The lift-offs, and the stretches of each kind, that match where all of them together do not; none where nothing does, or
 * where what is unlike touches everything.
 *
 * @param against  what does not match, as `judgeFairness` tells it.
 */
export function matchingParts(
  suspect: Comparable,
  reference: Comparable,
  against: ReadonlyMap<Concern, string>,
  limits: Limits,
): readonly MatchingPart[] {
  if (against.has("all")) return [];
  const part = (of: MatchingPart["of"], what: string, items: (side: Comparable) => readonly Running[]) => {
    const match = against.has(of === "lift-off" ? of : `stretch ${of}`)
      ? mostAlike(items(suspect), items(reference), limits)
      : null;
    return match ? [{ of, what: `${what} at a like air flow and engine speed`, ...match }] : [];
  };
  const kinds = [...new Set(suspect.stretches.map(({ kind }) => kind))];
  return [
    ...part("lift-off", "lift-offs", ({ liftOffs }) => liftOffs),
    ...kinds.flatMap((kind) => part(kind, `${kind} stretches`, (side) => stretchesOf(side, kind))),
  ];
}

function stretchesOf({ stretches }: Comparable, kind: StretchKind): readonly Running[] {
  return stretches.filter((one) => one.kind === kind).map((one) => ({ ...one, id: stretchId(one) }));
}

/**
 * The most of both sides that compare fairly with each other; null where none do.
 *
 * All lie within the square root of the limit about one middle, so that whatever is taken of them as the middle of either
 * side stays within the limit. One whose flow or speed is not known counts as like, as the judgement of the whole has it.
 */
function mostAlike(
  suspect: readonly Running[],
  reference: readonly Running[],
  limits: Limits,
): Pick<MatchingPart, "suspect" | "reference"> | null {
  const about = (middle: Omit<Running, "id">) => {
    const isNear = ({ airFlow, engineSpeed }: Running) =>
      likeBy(airFlow, middle.airFlow, Math.sqrt(limits.fairFlow)) &&
      likeBy(engineSpeed, middle.engineSpeed, Math.sqrt(limits.fairSpeed));
    return { mine: suspect.filter(isNear), theirs: reference.filter(isNear) };
  };
  const groups = suspect.flatMap((a) => reference.map((b) => about(between(a, b))));
  const size = ({ mine, theirs }: (typeof groups)[number]) =>
    Math.min(mine.length, theirs.length) + (mine.length + theirs.length) / 1000;
  const [best] = [...groups].sort((a, b) => size(b) - size(a));
  if (!best || best.mine.length === 0 || best.theirs.length === 0) return null;
  const ids = (all: readonly Running[]) => all.map(({ id }) => id);
  return { suspect: ids(best.mine), reference: ids(best.theirs) };
}

/** The geometric middle of two; the one that is known where the other is not. */
function between(a: Running, b: Running): Omit<Running, "id"> {
  const middle = (x: number | null, y: number | null) => (x === null || y === null ? (x ?? y) : Math.sqrt(x * y));
  return { airFlow: middle(a.airFlow, b.airFlow), engineSpeed: middle(a.engineSpeed, b.engineSpeed) };
}

const likeBy = (a: number | null, b: number | null, factor: number): boolean =>
  a === null || b === null || Math.max(a / b, b / a) <= factor * (1 + 1e-12);
