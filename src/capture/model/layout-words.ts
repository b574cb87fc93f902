// A layout in plain words, as it is typed, told and kept: "16-bit whole, low byte first, 2 channels, 1000 per second, times 0.001,
// unit V, names Front / Rear, skip 4 bytes". Phrases in any order; what is not said is as usual.

import { numberFrom } from "../../signal/written/typed-number.ts";

/** What a layout says, each as written; names lie between commas. */
export type LayoutKey = "type" | "order" | "channels" | "rate" | "scale" | "offset" | "skip" | "names" | "unit";
export type Said = ReadonlyMap<LayoutKey, string>;

/** Kinds of number in words, and as they are known inside. */
export const numberKinds = [
  ["16-bit whole", "i16"],
  ["unsigned 16-bit whole", "u16"],
  ["32-bit floating", "f32"],
  ["64-bit floating", "f64"],
  ["8-bit whole", "i8"],
  ["unsigned 8-bit whole", "u8"],
  ["24-bit whole", "i24"],
  ["32-bit whole", "i32"],
  ["unsigned 32-bit whole", "u32"],
  ["64-bit whole", "i64"],
  ["unsigned 64-bit whole", "u64"],
] as const;

/** Not understood where it may mean two: "1,000" is one or a thousand. */
const number = (text: string) => numberFrom(text)?.toString();

const phrases: readonly (readonly [RegExp, LayoutKey, (found: string) => string | undefined])[] = [
  [/^((?:unsigned )?\d+[- ]bit (?:whole|floating))(?: (?:numbers?|point))*$/i, "type", kindOf],
  [/^(low|high) byte first$/i, "order", (which) => (which.toLowerCase() === "low" ? "le" : "be")],
  [/^(\S+) channels?$/i, "channels", number],
  [/^(\S+)(?: samples| values| rows)? (?:per|a) second$/i, "rate", number],
  [/^times (\S+)$/i, "scale", number],
  [/^plus (\S+)$/i, "offset", number],
  [/^skip (\S+) bytes?$/i, "skip", number],
  [/^names? (.+)$/i, "names", (names) => names.split(/\s*[/]\s*/).join(",")],
  [/^unit (.+)$/i, "unit", (unit) => unit],
];

/** @returns what was understood, and the first phrase that was not. */
export function plainWords(text: string): { readonly said: Said; readonly unknown: string | null } {
  const said = new Map<LayoutKey, string>();
  for (const phrase of text.split(/[,;]\s+|[;\n]/).map((one) => one.trim())) {
    if (phrase === "") continue;
    const found = phrases.flatMap(([form, key, read]) => {
      const value = form.exec(phrase)?.[1];
      const meant = value === undefined ? undefined : read(value);
      return meant === undefined ? [] : [[key, meant] as const];
    })[0];
    if (!found) return { said, unknown: phrase };
    said.set(...found);
  }
  return { said, unknown: null };
}

/** The same words again; what is not said is left out. */
export function layoutInWords(said: Said): string {
  const kind = numberKinds.find(([, type]) => type === said.get("type"))?.[0];
  const phrase = (key: LayoutKey, write: (value: string) => string) => {
    const value = said.get(key);
    return value === undefined || value === "" ? [] : [write(value)];
  };
  return [
    ...(kind ? [kind] : []),
    ...phrase("order", (order) => `${order === "be" ? "high" : "low"} byte first`),
    ...phrase("channels", (count) => `${count} ${count === "1" ? "channel" : "channels"}`),
    ...phrase("rate", (rate) => `${rate} per second`),
    ...phrase("scale", (scale) => `times ${scale}`),
    ...phrase("offset", (offset) => `plus ${offset}`),
    ...phrase("unit", (unit) => `unit ${unit}`),
    ...phrase("names", (names) => `names ${names.split(",").join(" / ")}`),
    ...phrase("skip", (bytes) => `skip ${bytes} bytes`),
  ].join(", ");
}

function kindOf(words: string): string | undefined {
  const asListed = words.toLowerCase().replace(" bit", "-bit");
  return numberKinds.find(([kind]) => kind === asListed)?.[1];
}
