// First-order lag: the share of the remaining way that is gone in one step.

/** Exact for an input that holds still within the step. @param lag time constant, s. @param step s. */
export function lagShare(lag: number, step: number): number {
  return lag > 0 ? 1 - Math.exp(-step / lag) : 1;
}
