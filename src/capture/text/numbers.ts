// Numbers as people's programs write them: decimal point or comma, thousands marks, a unit inside the cell.

import { isUnit } from "../meaning/quantities.ts";

export type DecimalMark = "." | ",";

const missingWords = new Set(
  [
    "",
    "-",
    "--",
    "---",
    "----",
    "–",
    "—",
    "nan",
    "-nan",
    "+nan",
    "na",
    "n/a",
    "#n/a",
    "n.a.",
    "null",
    "none",
    "nil",
    "nodata",
    "no data",
  ]
    .concat([
      "#value!",
      "#ref!",
      "#num!",
      "#div/0!",
      "#name?",
      "#null!",
      "?",
      "??",
      "???",
      "*",
      "**",
      "***",
      "****",
      ".",
      "...",
    ])
    .concat([
      "inf",
      "-inf",
      "+inf",
      "infinity",
      "-infinity",
      "1.#qnan",
      "1.#inf",
      "-1.#ind",
      "1.#ind",
      "invalid",
      "error",
      "overload",
      "ovf",
      "off-scale",
    ])
    .concat(["not available", "not supported", "unsupported", "missing", "∞", "-∞", "off", "x"]),
);

/** Whether a cell stands for "no value". */
export function isMissing(cell: string): boolean {
  return cell === "" || missingWords.has(cell.trim().toLowerCase());
}

const shapes = {
  ".": /^([+-]?)((?:[1-9]\d{0,2}(?:[,'’ \u00a0\u202f]\d{3})+|\d+)?(?:\.\d*)?)(e[+-]?\d+)?\s*(.*)$/i,
  ",": /^([+-]?)((?:[1-9]\d{0,2}(?:[.'’ \u00a0\u202f]\d{3})+|\d+)?(?:,\d*)?)(e[+-]?\d+)?\s*(.*)$/i,
} as const;

// A unit inside a cell: letters, %, degree, slashes; never digits, colons or dates.
const unitInside = /^[a-zµμ°ºÂâ\ufffd%"][a-zµμ°º%/²³^·.\- ]{0,11}$/i;

/** Those with a digit only where they are known: "min-1". */
const isUnitInside = (text: string): boolean => unitInside.test(text) || (/[a-z]/i.test(text) && isUnit(text));

/** A number and what was written behind it. */
export interface WrittenNumber {
  readonly value: number;
  readonly unit: string;
  /** Digits behind the decimal mark, less the exponent: 1.50e-3 has 5. */
  readonly decimals: number;
  readonly grouped: boolean;
}

/** Takes a cell apart; null when it is not one finite number with at most a unit behind it. */
export function writtenNumber(cell: string, mark: DecimalMark): WrittenNumber | null {
  const text = cell.trim().replace(/^[−–](?=[\d.,])/, "-");
  if (text.length > 64) return null;
  const found = shapes[mark].exec(text);
  if (!found) return null;
  const [, sign = "", digits = "", exponent = "", unit = ""] = found;
  if (!/\d/.test(digits) || (unit !== "" && !isUnitInside(unit))) return null;
  const plain =
    mark === ","
      ? digits.replace(/[.'’ \u00a0\u202f]/g, "").replace(",", ".")
      : digits.replace(/[,'’ \u00a0\u202f]/g, "");
  const value = Number(sign + plain + exponent);
  if (!Number.isFinite(value)) return null;
  const point = plain.indexOf(".");
  const decimals = (point < 0 ? 0 : plain.length - point - 1) - (exponent === "" ? 0 : Number(exponent.slice(1)));
  return {
    value,
    unit,
    decimals,
    grouped: /[,'’ \u00a0\u202f]/.test(digits.replace(mark, "")) || (mark === "," && digits.includes(".")),
  };
}

/** Reads a cell of a number column: NaN when there is no number in it. */
export function numberIn(cell: string, mark: DecimalMark): number {
  if (mark === ".") {
    const quick = quickNumber(cell);
    if (!Number.isNaN(quick)) return quick;
  }
  return writtenNumber(cell, mark)?.value ?? Number.NaN;
}

/** Number() without what it takes too kindly: "" is 0, "0x10" is 16, "Infinity" is a number. */
function quickNumber(cell: string): number {
  if (cell.length === 0 || cell.length > 32) return Number.NaN;
  const value = Number(cell);
  if (value === 0 && cell.trim() === "") return Number.NaN;
  return Number.isFinite(value) && !/[xob]/i.test(cell) ? value : Number.NaN;
}
