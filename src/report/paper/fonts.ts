// The sheet's typeface as `@font-face` rules with the font files inside, so that a picture needs nothing from anywhere.

const weights = [400, 600] as const;

/** Parts of the typeface by characters, as @fontsource/source-sans-3 cuts them; shortened to what our metrics know. */
const parts = {
  latin: /[\u0020-\u00ff\u2000-\u206f\u20ac\u2122\u2212]/,
  "latin-ext": /[\u0100-\u02af\u1e00-\u1eff]/,
  greek: /[\u0370-\u03ff]/,
  cyrillic: /[\u0400-\u045f\u0490\u0491\u2116]/,
} as const;
export type FontPart = keyof typeof parts;

type FontFile = () => Promise<{ readonly default: string }>;

const files: Readonly<Record<`${FontPart}-${(typeof weights)[number]}`, FontFile>> = {
  "latin-400": () => import("@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff2?inline"),
  "latin-600": () => import("@fontsource/source-sans-3/files/source-sans-3-latin-600-normal.woff2?inline"),
  "latin-ext-400": () => import("@fontsource/source-sans-3/files/source-sans-3-latin-ext-400-normal.woff2?inline"),
  "latin-ext-600": () => import("@fontsource/source-sans-3/files/source-sans-3-latin-ext-600-normal.woff2?inline"),
  "greek-400": () => import("@fontsource/source-sans-3/files/source-sans-3-greek-400-normal.woff2?inline"),
  "greek-600": () => import("@fontsource/source-sans-3/files/source-sans-3-greek-600-normal.woff2?inline"),
  "cyrillic-400": () => import("@fontsource/source-sans-3/files/source-sans-3-cyrillic-400-normal.woff2?inline"),
  "cyrillic-600": () => import("@fontsource/source-sans-3/files/source-sans-3-cyrillic-600-normal.woff2?inline"),
};

/** Which parts a text needs; Latin always. */
export function fontParts(text: string): FontPart[] {
  const names = Object.keys(parts) as FontPart[];
  return names.filter((name) => name === "latin" || parts[name].test(text));
}

/** CSS for `SheetExtras.fontFaces`. */
export async function fontFaces(needed: readonly FontPart[]): Promise<string> {
  const rules = needed.flatMap((part) => weights.map((weight) => fontFace(part, weight)));
  return (await Promise.all(rules)).join("");
}

async function fontFace(part: FontPart, weight: (typeof weights)[number]): Promise<string> {
  const { default: address } = await files[`${part}-${weight}`]();
  const range = part === "latin" ? "" : `unicode-range:${ranges[part]};`;
  return `@font-face{font-family:"Source Sans 3";font-weight:${weight};${range}src:url(${address}) format("woff2")}`;
}

const ranges: Readonly<Record<Exclude<FontPart, "latin">, string>> = {
  "latin-ext": "U+100-2AF,U+1E00-1EFF",
  greek: "U+370-3FF",
  cyrillic: "U+400-45F,U+490-491,U+2116",
};
