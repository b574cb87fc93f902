// A number as people type it: decimal comma or point, thousands set apart by either, by blanks or by an apostrophe.

/**
 * The last of "," and "." that stands once is the decimal mark; one mark followed by exactly three digits is taken as thousands
 * where the number before it has one to three digits and is not 0 ("2,000" is two thousand, "0,125" an eighth).
 *
 * @returns null where the text is no finite number.
 */
export function numberAsTyped(text: string): number | null {
  const plain = text
    .trim()
    .replace(/[\s\u00a0\u202f']/g, "")
    .replace("−", "-");
  if (!/^[-+]?[\d.,]*\d[.,]?$/.test(plain)) return null;
  const sign = plain.startsWith("-") ? -1 : 1;
  const digits = plain.replace(/^[-+]/, "").replace(/[.,]$/, "");
  const marks = [...digits].filter((one) => one === "," || one === ".");
  const value = Number(withPoint(digits, marks));
  return Number.isFinite(value) ? sign * value : null;
}

function withPoint(digits: string, marks: readonly string[]): string {
  if (marks.length === 0) return digits;
  const last = marks.at(-1)!;
  const isOne = marks.filter((one) => one === last).length === 1;
  const isThousands = marks.length === 1 && /^[1-9]\d{0,2}[.,]\d{3}$/.test(digits);
  if (!isOne || isThousands) {
    const whole = marks.every((one) => one === last);
    return whole && /^\d{1,3}([.,]\d{3})+$/.test(digits) ? digits.replace(/[.,]/g, "") : "no number";
  }
  const at = digits.lastIndexOf(last);
  const before = digits.slice(0, at);
  return /^\d{1,3}([.,]\d{3})*$|^\d*$/.test(before)
    ? `${before.replace(/[.,]/g, "")}.${digits.slice(at + 1)}`
    : "no number";
}
