// How many trials a test takes: `npm test` a share of them, `npm run long:shares`, `long:storage` and `long:page` all.

/** Whether this run takes all trials; in the browser, vitest.config.ts hands the word on. */
export const isLongForm = import.meta.env.ALL_TRIALS === "yes";

/** Seeds are fixed and counted from the first, so that a share is part of the same trials. */
export const ofTrials = (share: number, all: number): number => (isLongForm ? all : share);

/** Kinds of which `npm test` takes those that are named in `short`. */
export const ofKinds = <T extends readonly [name: string, ...rest: unknown[]]>(
  short: readonly string[],
  all: readonly T[],
): readonly T[] => {
  const unknown = short.filter((name) => !all.some(([one]) => one === name));
  if (unknown.length > 0) throw new Error(`No kind is named ${unknown.join(", ")}.`);
  return isLongForm ? all : all.filter(([name]) => short.includes(name));
};
