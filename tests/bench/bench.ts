// What a benchmark is and how its outcome is told: a figure, a peer of the same run, their ratio, and the budget.

export interface Row {
  readonly what: string;
  readonly budget: string;
  readonly figure: string;
  readonly peer: string;
  readonly ratio: string;
  readonly holds: boolean;
}

export interface Bench {
  readonly name: string;
  run(): Promise<readonly Row[]>;
}

export function table(rows: readonly Row[]): string {
  const cells = rows.map(({ what, budget, figure, peer, ratio, holds }) => [
    what,
    budget,
    figure,
    peer,
    ratio,
    holds ? "yes" : "NO",
  ]);
  const lines = [
    ["what", "budget", "figure", "peer", "ratio", "holds"],
    ["---", "---", "---", "---", "---", "---"],
    ...cells,
  ];
  return lines.map((line) => `| ${line.join(" | ")} |`).join("\n");
}

export const ms = (value: number): string => (value < 10 ? `${value.toFixed(2)} ms` : `${Math.round(value)} ms`);
export const rate = (bytes: number, milliseconds: number): string => `${Math.round(bytes / 1e3 / milliseconds)} MB/s`;
export const megabytes = (bytes: number): string => `${Math.round(bytes / 1e6)} MB`;

/** Nearest rank. */
export function percentile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.max(0, Math.ceil(share * sorted.length) - 1))]!;
}

export const median = (values: readonly number[]): number => percentile(values, 0.5);
