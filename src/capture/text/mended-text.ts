// UTF-8 that was read as Windows-1252 on its way, put right: "KÃ¼hlmittel" was "Kühlmittel".

/** Characters that Windows-1252 has at 0x80 to 0x9f; a blank where it has none. */
const upper =
  "\u20ac \u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152 \u017d  \u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153 \u017e\u0178";

/** @returns the text as it was meant, where all of it is such UTF-8; else as it stands. */
export function mendedText(text: string): string {
  if (!/[\u00c2-\u00f4][\u0080-\u00bf\u0152-\u2122]/.test(text)) return text;
  const bytes = Array.from(text, (letter) => {
    const at = letter === " " ? -1 : upper.indexOf(letter);
    return at >= 0 ? 0x80 + at : letter.codePointAt(0)!;
  });
  if (bytes.some((byte) => byte > 0xff)) return text;
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(Uint8Array.from(bytes));
  } catch {
    return text;
  }
}
