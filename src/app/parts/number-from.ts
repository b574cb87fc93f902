// What a field for a number holds, and why what was typed is refused.

import { meansTwo, numberFrom, plainOf } from "../../signal/written/typed-number.ts";

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
  const reason = isEmpty ? null : value === null ? whyNoNumber(field.value) : isRight(value);
  field.setCustomValidity(reason ?? "");
  if (reason === null) return value;
  field.reportValidity();
  return undefined;
}

/** Why a text is no number that can be taken. */
export function whyNoNumber(text: string): string {
  const plain = plainOf(text);
  if (!meansTwo(plain)) return `“${text.trim()}” is not a number. It was not taken.`;
  const [whole, part] = plain.split(",");
  return `“${plain}” may be ${whole}.${part} or ${whole}${part}: write it without the comma. It was not taken.`;
}
