// Clocks and dates as other languages write them, put into plain figures: halves of the day, signs for years and hours.

/**
 * Words for the halves of a day. Source: the Unicode Common Locale Data Repository, day periods "am" and "pm", which the tests ask
 * the platform for; the Hangul ones from memory.
 */
const halves = {
  am: "am a.m. a.\\sm. 오전 上午 午前 π.μ. ص ق.ظ. पूर्वाह्न පෙ.ව. sa öö to de. dop. претпл. дп p.d. fm ap. priekšp. priešpiet r.n. f.h. pg ጥዋት ກ່ອນທ່ຽງ နံနက် ү.ө. vm.",
  pm: "pm p.m. p.\\sm. 오후 下午 午後 μ.μ. م ب.ظ. अपराह्न ප.ව. ch ös tk du. odp. pop. попл. пп m.d. em ip. pēcp. popiet i.n. e.h. ptg ከሰዓት ຫຼັງທ່ຽງ ညနေ ү.х. nm.",
} as const;

const clock = String.raw`\d{1,2}[:.]\d{1,2}(?:[:.]\d{1,2})?(?:[.,:]\d{1,9})?`;
const oneOf = (words: string) => `(?:${words.replaceAll(".", "\\.?").split(" ").join("|")})`;
const shapesOf = (words: string) => [
  new RegExp(String.raw`\s*(?<!\p{L})${oneOf(words)}\s*(${clock})(?![\d:])`, "iu"),
  new RegExp(String.raw`\s*(?<=^|[^\d:.,])(${clock})\s*${oneOf(words)}(?!\p{L})`, "iu"),
];
const morning = shapesOf(halves.am);
const afternoon = shapesOf(halves.pm);

const hasHalf = new RegExp(String.raw`(?<!\p{L})${oneOf(`${halves.am} ${halves.pm}`)}(?!\p{L})`, "iu");

const codesOf = (text: string) => new Set(Array.from(text, (letter) => letter.charCodeAt(0)));
const digits = codesOf("0123456789");
const marks = codesOf(" :,/+-TZ");
const lettersOfHalf = codesOf("apmAPM");
const point = 46;

/** Figures and their marks alone, or am and pm behind them, as most stamps are: nothing to do. A loop, as every row comes here. */
function isPlain(cell: string): boolean {
  let isBehind = false;
  for (let i = 0; i < cell.length; i++) {
    const code = cell.charCodeAt(i);
    if (digits.has(code)) {
      if (isBehind) return false;
    } else if (code === point) {
      if (!digits.has(cell.charCodeAt(i + 1))) return false;
    } else if (lettersOfHalf.has(code)) isBehind = true;
    else if (!marks.has(code)) return false;
  }
  return true;
}

/** Marks that turn the direction of writing, and blanks that keep a line whole. */
const unseen = /[\u200e\u200f\u061c]/g;
const eastDate = /(\d{4})\s?[年년]\s?(\d{1,2})\s?[月월]\s?(\d{1,2})\s?[日일]?/;
const eastClock = /(\d{1,2})\s?[時时點点시]\s?(\d{1,2})\s?[分분](?:\s?(\d{1,2}(?:[.,]\d+)?)\s?[秒초])?/;
/** "2026. 3. 4." and "4. 3. 2026": a blank behind each point, or a point behind the last number. */
const spacedDate = /^(\d{4}|\d{1,2})\. ?(\d{1,2})\. ?(\d{4}|\d{1,2})\.?(?=$|[\s,])/;
/** "г." of a year, "ч." of an hour, and what stands for "o'clock". */
const besides = /(?<=\d)\s(?:[гчр]\.|klo|kl\.?)(?=[\s,]|$)/gu;

/** The cell with the signs of its language taken off: "2026년 3월 4일 오후 3:12:03" is "2026-3-4 3:12:03 pm". Others stay as they are. */
export function inPlainFigures(cell: string): string {
  if (isPlain(cell) || !/\d/.test(cell)) return cell;
  const text = cell
    .replace(unseen, "")
    .replace("،", ",")
    .replace(besides, "")
    .replace(spacedDate, (whole, a: string, b: string, c: string) =>
      a.length + c.length > 4 ? `${a}.${b}.${c}` : whole,
    )
    .replace(eastDate, "$1-$2-$3")
    .replace(eastClock, (_, hours, minutes, seconds = "0") => `${hours}:${minutes}:${seconds}`);
  if (!hasHalf.test(text)) return text;
  const early = morning.find((shape) => shape.test(text));
  const shape = early ?? afternoon.find((one) => one.test(text));
  return shape ? text.replace(shape, ` $1 ${early ? "am" : "pm"}`).trim() : text;
}
