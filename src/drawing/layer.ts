// One layer of a lane: a line or a band, with where it comes from and how it is drawn, on the screen as on paper.

export type Look = "front" | "rear" | "other";

interface Laid {
  /** Where it comes from, one word for each kind of layer: "own", "reference", "usual". */
  readonly source: string;
  /** What its key calls it. */
  readonly label: string;
  /** Front is a thin warm line, rear a thick cool one. */
  readonly look: Look;
}

export interface LineLayer extends Laid {
  readonly form: "line";
  /** The window that holds its values goes by this name. */
  readonly channelId: string;
  readonly unit: string;
  /** Without it the line is drawn through. */
  readonly stroke?: "dashed" | "dotted";
  /** Paler, below the lane's other lines. */
  readonly isBehind?: boolean;
  readonly isThin?: boolean;
  /** Not drawn for now, but its room on the scale is kept. */
  readonly isUnseen?: boolean;
  /** No value stands beside it on the lanes: another line of the same channel tells it. */
  readonly isUntold?: boolean;
  /** The other recording that it is of: its name is said once in a lane's key. */
  readonly of?: string;
  /** Said after its values where other lines of the lane have none. */
  readonly tag?: string;
  /** A value was asked for now and then: samples stand out, the line between them is only a guess and drawn so. */
  readonly polled?: boolean;
}

/** From `low` to `high` over time, below all lines; NaN is a gap. All arrays are equally long, `times` rise. */
export interface BandLayer extends Laid {
  readonly form: "band";
  readonly times: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** Drawn as a chain line. */
  readonly middle?: Float64Array;
  /** Where a sound catalyst's rear would have stayed. Without it the band is hatched. */
  readonly fill?: "grey";
}

export type Layer = LineLayer | BandLayer;

interface Layered<L> {
  readonly layers: readonly L[];
}

export const linesOf = <L extends { readonly form: string }>({ layers }: Layered<L>): readonly Extract<L, Line>[] =>
  layers.filter((layer): layer is Extract<L, Line> => layer.form === "line");

export const bandsOf = ({ layers }: Layered<{ readonly form: string }>): readonly BandLayer[] =>
  layers.filter((layer): layer is BandLayer => layer.form === "band");

interface Line {
  readonly form: "line";
}

/** For the keys of a lane's bands: each name once, with one band of each look, however many times it is laid. */
export function bandKinds(
  lane: Layered<{ readonly form: string }>,
): readonly (readonly [string, readonly BandLayer[]])[] {
  const kinds = new Map<string, Map<Look, BandLayer>>();
  for (const band of bandsOf(lane)) kinds.set(band.label, (kinds.get(band.label) ?? new Map()).set(band.look, band));
  return [...kinds].map(([label, looks]) => [label, [...looks.values()]] as const);
}

/**
 * Lines of a lane's own recording, and those of another one below them, which share one key: which is which, their colours tell.
 *
 * @param of  the other recording that a line is of.
 * @returns all as own where none is the lane's own.
 */
export function ownAndBehind<T>(
  lines: readonly T[],
  of: (line: T) => string | undefined,
): { readonly own: readonly T[]; readonly behind: readonly T[] } {
  const own = lines.filter((line) => of(line) === undefined);
  if (own.length === 0) return { own: lines, behind: [] };
  return { own, behind: lines.filter((line) => of(line) !== undefined) };
}
