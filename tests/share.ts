// How many trials a test takes: `npm test` a share of them, `npm run long:shares` all.

/** Seeds are fixed and counted from the first, so that a share is part of the same trials. */
export const ofTrials = (share: number, all: number): number => (process.env.ALL_TRIALS === "yes" ? all : share);
