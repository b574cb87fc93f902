// A number as people type it: decimal comma or point, a true minus sign, blanks around it. What may mean two numbers is none.

/** One to three digits, a comma, three more: two and a half, or two thousand five hundred. "0,125" can only be the one. */
const twoMeanings = /^[-+]?[1-9]\d{0,2},\d{3}$/;

export const plainOf = (text: string): string => text.trim().replace("−", "-");

/** Whether a text is one number with a decimal comma, and another with a mark of thousands. */
export const meansTwo = (text: string): boolean => twoMeanings.test(plainOf(text));

/** @returns null where the text is no finite number, or may mean two. */
export function numberFrom(text: string): number | null {
  const plain = plainOf(text);
  if (meansTwo(plain)) return null;
  const value = Number(plain.replace(",", "."));
  return plain !== "" && Number.isFinite(value) ? value : null;
}
