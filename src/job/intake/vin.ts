// Vehicle identification numbers. Seventeen characters without I, O, Q (ISO 3779); a check digit in place 9 only where North
// America's rule asks for one (49 CFR 565): ISO 3779 fixes none.

export type VinTold =
  | { readonly told: "empty" }
  | { readonly told: "wrong-length"; readonly says: string }
  | { readonly told: "wrong-letter"; readonly says: string }
  /** North American: the check digit fits, or it does not. */
  | { readonly told: "fits"; readonly says: string }
  | { readonly told: "does-not-fit"; readonly says: string }
  /** Made elsewhere: place 9 need not be a check digit, so nothing can be told from it. */
  | { readonly told: "no-check-digit"; readonly says: string };

/** 49 CFR 565.15 (c): values of letters, I, O and Q have none. */
const values: Readonly<Record<string, number>> = Object.fromEntries(
  ["A1 B2 C3 D4 E5 F6 G7 H8", "J1 K2 L3 M4 N5 P7 R9", "S2 T3 U4 V5 W6 X7 Y8 Z9"]
    .join(" ")
    .split(" ")
    .map((pair) => [pair[0]!, Number(pair[1])]),
);
/** 49 CFR 565.15 (c): weights of the places. */
const weights = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2];

/** Without blanks and dashes, upper case. */
const plainVin = (text: string): string => text.replace(/[\s-]/g, "").toUpperCase();

/** The remainder of the weighted sum by 11, "X" for 10. @param vin seventeen characters. */
export function checkDigitOf(vin: string): string {
  const sum = [...vin].reduce((total, one, i) => total + weights[i]! * (values[one] ?? Number(one)), 0);
  return sum % 11 === 10 ? "X" : String(sum % 11);
}

/** What can be told of a number as it was typed; never refuses it. */
export function vinTold(text: string): VinTold {
  const vin = plainVin(text);
  if (vin === "") return { told: "empty" };
  const odd = /[^A-HJ-NPR-Z0-9]/.exec(vin);
  if (odd) return { told: "wrong-letter", says: `“${odd[0]}” in place ${odd.index + 1} stands in no VIN.` };
  if (vin.length !== 17) return { told: "wrong-length", says: `${vin.length} of 17 characters.` };
  const wanted = checkDigitOf(vin);
  if (!/^[1-5]/.test(vin)) {
    return { told: "no-check-digit", says: "Made outside North America: it need not hold a check digit." };
  }
  return vin[8] === wanted
    ? { told: "fits", says: "The check digit fits." }
    : {
        told: "does-not-fit",
        says: `The check digit does not fit: place 9 is ${vin[8]}, ${wanted} would fit. Look again.`,
      };
}
