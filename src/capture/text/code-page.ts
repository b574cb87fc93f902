// Which code page the names of a text that is no UTF-8 were written in: the one in which most of them are words and units we know.

import { isUnit } from "../meaning/quantities.ts";
import { roleNamedBy } from "../meaning/roles.ts";
import { strangeWords } from "./alphabets.ts";
import { type CodePage, codePages } from "./encodings.ts";
import { isTimeName } from "./time-column.ts";
import { titleOf } from "./titles.ts";

/** Names stand ahead of the numbers: so many bytes are looked at, and so many cells that are not plain letters. */
const bytesLookedAt = 64 * 1024;
const mostCells = 300;

/**
 * The code page of a text whose bytes are no UTF-8.
 *
 * @param head  the first bytes.
 * @returns Windows-1252, unless another page makes more names and units known, or, of one byte a letter, makes all words those of one
 *          language; words of no language count against it. Digits, signs and line ends are the same in all of them; a page
 *          in which a digit would be half of another letter is left out, so no number depends on the choice.
 */
export function codePageOf(head: Uint8Array): CodePage {
  const part = head.subarray(0, bytesLookedAt);
  const usual = readAs(part, "windows-1252")!;
  return (Object.keys(codePages) as CodePage[])
    .slice(1)
    .map((page) => readAs(part, page))
    .filter((one) => one !== null)
    .reduce((best, one) => (isBetter(one, best, usual) ? one : best), usual).page;
}

interface ReadAs {
  readonly page: CodePage;
  /** Cells that are known by letters beyond ASCII. */
  readonly known: number;
  readonly strange: number;
}

function readAs(part: Uint8Array, page: CodePage): ReadAs | null {
  const text = decoded(part, page);
  if (text === null) return null;
  const cells = foreignCells(text);
  return { page, known: cells.filter(isKnown).length, strange: strangeWords(cells) };
}

const ofSeveralBytes: readonly CodePage[] = ["shift_jis", "gbk", "big5", "euc-jp"];

function isBetter(one: ReadAs, best: ReadAs, usual: ReadAs): boolean {
  const isOfOneLanguage = one.strange === 0 && !ofSeveralBytes.includes(one.page);
  return (one.known > usual.known || isOfOneLanguage) && one.known - one.strange > best.known - best.strange;
}

/** Null where the bytes are none of this page, or a digit would go into another letter. A character may be cut at the end. */
function decoded(part: Uint8Array, page: CodePage): string | null {
  try {
    const text = new TextDecoder(page, { fatal: page !== "windows-1252" }).decode(part, { stream: true });
    return digitsIn(text) === digitsIn(part) ? text : null;
  } catch {
    return null;
  }
}

function digitsIn(text: string | Uint8Array): number {
  let count = 0;
  for (let i = 0; i < text.length; i++) {
    const code = typeof text === "string" ? text.charCodeAt(i) : text[i]!;
    if (code >= 48 && code <= 57) count++;
  }
  return count;
}

/** Different cells with letters beyond ASCII, however they are set apart. */
function foreignCells(text: string): string[] {
  const cells = new Set<string>();
  for (const line of text.split(/[\r\n]+/)) {
    if (isPlain(line)) continue;
    for (const cell of line.split(/[,;\t|]/)) if (!isPlain(cell) && cells.size < mostCells) cells.add(cell.trim());
  }
  return [...cells];
}

// biome-ignore lint/suspicious/noControlCharactersInRegex: ASCII as a whole
const isPlain = (text: string): boolean => /^[\u0000-\u007f]*$/.test(text);

/** Known by its letters beyond ASCII: without them it would not be. */
function isKnown(cell: string): boolean {
  const { name, fileUnit } = titleOf(cell.replace(/^"|"$/g, ""));
  const isWord = (text: string) => roleNamedBy(text, "").role !== "other" || isTimeName(text);
  const isForeignUnit = [cell, fileUnit].some((unit) => !isPlain(unit) && isUnit(unit) && isOfUnitSigns(unit));
  return isForeignUnit || (isWord(name) && !isWord(name.replace(/[^ -~]+/g, " ").trim()));
}

/** None of the signs that a degree sign becomes in a wrong code page. */
const isOfUnitSigns = (unit: string): boolean => /^[\p{L}\d °º²³·/%()[\]-]+$/u.test(unit);
