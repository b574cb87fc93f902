// The size of an engine, as people write it.

/** A number, then litres, cubic centimetres, cubic inches, or whatever else stands there ("1.6 16V"). */
const written = /^\s*(\d+(?:[.,]\d+)?)\s*(?:(ccm?|ccs|cm3|cm³|cm\^3)|(cid?|cu\.?\s?in\.?|in³))?/i;
/** l: 2.54³ cm³. */
const cubicInch = 2.54 ** 3 / 1000;
/** Larger than any engine in litres, smaller than any in cm³. */
const leastCubic = 100;
/** l, of road vehicles. Own choice, wide. */
const possible = { least: 0.4, most: 15 } as const;

/**
 * Litres of "1.6", "1,6 l", "1598 cm³", "350 cu in" or "1.6 16V turbo".
 *
 * @returns null where the text begins with no number, or with one that is no engine's.
 */
export function litresOf(text: string): number | null {
  const [, number, cubic, inches] = written.exec(text) ?? [];
  if (number === undefined) return null;
  const value = Number(number.replace(",", "."));
  const inCubic = cubic !== undefined || value >= leastCubic ? value / 1000 : value;
  const litres = inches === undefined ? inCubic : value * cubicInch;
  return litres >= possible.least && litres <= possible.most ? litres : null;
}
