// Styles that nothing on the page has: classes no code names, and values no style asks for.

/** The part of a style sheet before a brace, without comments. */
const selectors = (css: string): readonly string[] =>
  [...css.replace(/\/[*][\s\S]*?[*]\//g, "").matchAll(/([^{};]+)\{/g)].map(([, selector]) => selector!);

const escaped = (name: string): string => name.replace(/[-]/g, "[-]");

/** A class is named whole, or made of a fixed beginning and a word that is put in: `ink-${token}`. */
function isNamed(name: string, code: string): boolean {
  if (new RegExp(`(?<![\\w-])${escaped(name)}(?![\\w-])`).test(code)) return true;
  const parts = name.split("-");
  return parts.some((_, i) => i > 0 && code.includes(`${parts.slice(0, i).join("-")}-\${`));
}

/**
 * @param sheets  texts of all style sheets.
 * @param code  of everything that makes elements, in one text.
 * @param foreign  beginnings of classes that a package gives to its own elements.
 * @returns ".class" and "--value", each once.
 */
export function unusedStyles(sheets: readonly string[], code: string, foreign: readonly string[]): readonly string[] {
  const css = sheets.join("\n");
  const classes = new Set(
    sheets.flatMap((sheet) =>
      selectors(sheet).flatMap((one) => [...one.matchAll(/[.]([a-zA-Z][\w-]*)/g)].map(([, name]) => name!)),
    ),
  );
  const values = new Set([...css.matchAll(/(--[\w-]+)\s*:/g)].map(([, name]) => name!));
  const asks = (name: string) =>
    new RegExp(`var[(]\\s*${escaped(name)}(?![\\w-])`).test(css) || isNamed(name.slice(2), code);
  return [
    ...[...classes]
      .filter((name) => !isNamed(name, code) && !foreign.some((own) => name.startsWith(own)))
      .map((name) => `.${name}`),
    ...[...values].filter((name) => !asks(name)),
  ];
}
