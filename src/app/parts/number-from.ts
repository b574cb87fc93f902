// A number as people type it: decimal comma or point, a true minus sign, blanks around it. What may mean two numbers is none.

/** One to three digits, a comma, three more: two and a half, or two thousand five hundred. "0,125" can only be the one. */
const twoMeanings = /^[-+]?[1-9]\d{0,2},\d{3}$/;

const plainOf = (text: string) => text.trim().replace("−", "-");

/** @returns null where the text is no finite number, or may mean two. */
export function numberFrom(text: string): number | null {
  const plain = plainOf(text);
  if (twoMeanings.test(plain)) return null;
  const value = Number(plain.replace(",", "."));
  return plain !== "" && Number.isFinite(value) ? value : null;
}

type Field = Pick<HTMLInputElement, "value" | "setCustomValidity" | "reportValidity">;

/**
 * What a field holds: null where it is empty, undefined where it is refused. A text that is refused stays in the field, marked,
 * and the browser shows the reason beside it.
 */
export function numberIn(
  field: Field,
  isRight: (value: number) => string | null = () => null,
): number | null | undefined {
  const value = numberFrom(field.value);
  const isEmpty = field.value.trim() === "";
  const reason = isEmpty ? null : value === null ? whyNone(field.value) : isRight(value);
  field.setCustomValidity(reason ?? "");
  if (reason === null) return value;
  field.reportValidity();
  return undefined;
}

function whyNone(text: string): string {
  const plain = plainOf(text);
  if (!twoMeanings.test(plain)) return `“${text.trim()}” is not a number. It was not taken.`;
  const [whole, part] = plain.split(",");
  return `“${plain}” may be ${whole}.${part} or ${whole}${part}: write it without the comma. It was not taken.`;
}
