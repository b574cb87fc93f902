// A number as people type it: decimal comma or point, a true minus sign, blanks around it.

/** @returns null where the text is no finite number. */
export function numberFrom(text: string): number | null {
  const plain = text.trim().replace(",", ".").replace("−", "-");
  const value = Number(plain);
  return plain !== "" && Number.isFinite(value) ? value : null;
}
