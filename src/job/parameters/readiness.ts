// Lamp, count of codes and readiness out of bytes A to D of PID $01 (since clear) and $41 (this drive). The items after a general
// packet library; which bit is which is from memory, and the screens say so.

export type ReadinessState = "complete" | "not-complete" | "not-fitted";

export interface ReadinessItem {
  readonly id: string;
  readonly name: string;
  readonly state: ReadinessState;
}

export interface Readiness {
  /** PID $41 tells nothing of the lamp, nor do typed words: null there. */
  readonly lamp: boolean | null;
  readonly codes: number | null;
  readonly items: readonly ReadinessItem[];
}

/** Shown wherever readiness is read from bytes. */
export const readinessMark = "which bit is which is from memory, not checked against the standard";

export const continuous = [
  ["misfire", "Misfire"],
  ["fuel", "Fuel system"],
  ["components", "Components"],
] as const;
/** Spark ignition. */
export const perDrive = [
  ["catalyst", "Catalyst"],
  ["heated-catalyst", "Heated catalyst"],
  ["vapour", "Fuel vapour"],
  ["secondary-air", "Secondary air"],
  ["filter", "Particulate filter or air conditioning"],
  ["oxygen-sensor", "Oxygen sensors"],
  ["heater", "Oxygen sensor heaters"],
  ["recirculation", "Exhaust gas recirculation or valve timing"],
] as const;

/**
 * @param bytes  A, B, C, D.
 * @param pid    0x01; 0x41 where lamp and count are not told.
 * @returns null where bytes are missing, or where the engine is one with compression ignition (B bit 3), whose bits mean others.
 */
export function readinessOf(bytes: readonly number[], pid: 0x01 | 0x41): Readiness | null {
  const [a, b, c, d] = bytes;
  if (a === undefined || b === undefined || c === undefined || d === undefined || b & 8) return null;
  const items = [
    ...continuous.map(([id, name], bit) => ({ id, name, state: stateOf(b >> bit, b >> (bit + 4)) })),
    ...perDrive.map(([id, name], bit) => ({ id, name, state: stateOf(c >> bit, d >> bit) })),
  ];
  return pid === 0x01 ? { lamp: (a & 0x80) !== 0, codes: a & 0x7f, items } : { lamp: null, codes: null, items };
}

/** Supported: 1; and 1 means not complete. */
const stateOf = (supported: number, open: number): ReadinessState =>
  (supported & 1) === 0 ? "not-fitted" : (open & 1) === 1 ? "not-complete" : "complete";

/** Whether the catalyst monitor has finished; null where it is not told. */
export const catalystComplete = (readiness: Readiness | null): boolean | null => {
  const state = readiness?.items.find(({ id }) => id === "catalyst")?.state;
  return state === undefined || state === "not-fitted" ? null : state === "complete";
};
