// Checks made by hand that no recording replaces, and what came of them.

/** Causes that look like a worn catalyst, or would wear a new one down: each is looked at by hand. */
export const handCauses = [
  "leak-ahead",
  "leak-between",
  "ignition",
  "plugs",
  "fuel-pressure",
  "oil-coolant",
  "wiring",
  "software",
  "warranty",
] as const;
export type HandCause = (typeof handCauses)[number];

export type HandResult = "in-order" | "at-fault";

/** What was done so far; a cause that is not named was not looked at. */
export type HandChecks = Readonly<Partial<Record<HandCause, HandResult>>>;
