// Whether words look like words of one language: by the letters beyond a to z that it writes.

/** Latin alphabets' own letters, by what the languages' orthographies list. */
const ofLatin = [
  "äöüß", // German
  "àâçéèêëîïôœùûüÿ", // French
  "áéíñóúü", // Spanish
  "àèéìíòóù", // Italian
  "áâãàçéêíóôõúü", // Portuguese
  "åäöéæøü", // Nordic
  "áéëïóöü", // Dutch
  "ąćęłńóśźż", // Polish
  "áčďéěíňóřšťúůýžäĺľŕô", // Czech, Slovak
  "áéíóöőúüű", // Hungarian
  "ăâîşţșț", // Romanian
  "âçğıîöşüû", // Turkish
  "čćđšž", // Croatian, Slovene
  "áðéíóúýþæö", // Icelandic
  "õäöüšž", // Estonian
].map((own) => `a-z${own}`);
/** Other scripts; words of Han letters stand beside Latin ones without a blank. */
const ofOthers = [
  "\\p{Script=Cyrillic}",
  "\\p{Script=Greek}",
  "a-z\\p{Script=Han}",
  "a-z\\p{Script=Han}\\p{Script=Katakana}\\p{Script=Hiragana}ー",
];
const alphabets: readonly RegExp[] = [...ofLatin, ...ofOthers].map((letters) => new RegExp(`^[${letters}]+$`, "u"));

/** Controls, letters of nobody's, lines of boxes. */
const neverWritten = /[\u0080-\u009f\u2500-\u259f\ue000-\uf8ff\ufffd]/;
/** A capital behind a small letter, but for those of English names put together. */
const capitalInside = /\p{Ll}(?![A-Z])\p{Lu}/u;

/**
 * Words that the language of the others does not write.
 *
 * @param texts  names as they stand.
 * @returns how many. A sign amid letters makes a word strange, one at its end does not.
 */
export function strangeWords(texts: readonly string[]): number {
  const words = texts.flatMap(wordsBeyondAscii);
  const fits = (alphabet: RegExp) => (word: string) =>
    alphabet.test(word.toLowerCase().normalize("NFC")) && !capitalInside.test(word);
  const most = Math.max(...alphabets.map((alphabet) => words.filter(fits(alphabet)).length));
  return words.length - most;
}

function wordsBeyondAscii(text: string): string[] {
  const runs = text.match(/[a-z\u0080-\uffff]+/gi) ?? [];
  return runs
    .map((run) => (neverWritten.test(run) ? run : run.replace(/^[^\p{L}]+|[^\p{L}]+$/gu, "")))
    .filter((word) => /[^a-z]/i.test(word) && !/^\u00b5[a-z]*$/i.test(word));
}
