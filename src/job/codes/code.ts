// A fault code by its structure (SAE J2012 / ISO 15031-6): the letter names the system, the first digit and the second whether
// the standard or the maker defines it. Structure after a general packet library that codes the tables, and closed form;
// which ranges are generic is from memory.

export type CodeSystem = "powertrain" | "chassis" | "body" | "network";
export type CodeState = "stored" | "pending" | "permanent";

/** "P0420": five characters, upper case. */
export type CodeName = string;

/** A code, and where it stood. */
export interface FaultCode {
  readonly code: CodeName;
  /** As far as it is known. */
  readonly states: readonly CodeState[];
}

const letters = "PCBU";
const systems: Readonly<Record<string, CodeSystem>> = { P: "powertrain", C: "chassis", B: "body", U: "network" };

/**
 * Two bytes as a code: bits 15-14 the letter, 13-12 the first digit, then three hex digits.
 *
 * @returns null for 00 00, which fills unused places.
 */
export function codeOfBytes(high: number, low: number): CodeName | null {
  if (high === 0 && low === 0) return null;
  const digits = (((high & 0x3f) << 8) | low).toString(16).toUpperCase().padStart(4, "0");
  return `${letters[high >> 6]}${digits}`;
}

export const isCode = (text: string): boolean => /^[PCBU][0-3][0-9A-F]{3}$/.test(text);

export const systemOf = (code: CodeName): CodeSystem => systems[code[0]!]!;

/** "maker": its meaning stands in the maker's own table, and is never made up from the number. */
export function definedBy(code: CodeName): "standard" | "maker" {
  const [letter, first] = [code[0], code[1]];
  if (first === "0") return "standard";
  if (first === "2") return letter === "P" ? "standard" : "maker";
  if (first === "3") return letter === "P" ? (code[2]! >= "4" && code[2]! <= "9" ? "standard" : "maker") : "standard";
  return "maker";
}
