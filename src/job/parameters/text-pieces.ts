// A line of several values, as people write them, cut into one piece for each value.

/** Words of the longest name, "Distance travelled since the codes were cleared", and of a name with its value. */
const longestName = 8;
const longestPiece = 12;

/**
 * Cut at commas, semicolons and bars where the parts tell for themselves; else before each name that follows a whole value, so that
 * "RPM;2000;rpm;Load;38;%" and "speed 75 km/h load 38 %" are two pieces each.
 *
 * @param isWhole whether a text names a quantity and its value.
 * @param begins whether a text begins with the name of a quantity.
 */
export function piecesOf(
  line: string,
  isWhole: (text: string) => boolean,
  begins: (text: string) => boolean,
): readonly string[] {
  const parts = line.split(/[;|]|,\s+/).filter((part) => /\d/.test(part));
  if (parts.filter(isWhole).length > 1) return parts;
  const words = line
    .replace(/[;|\t]|,(?!\d)/g, " ")
    .split(/\s+/)
    .filter(Boolean);
  const pieces: string[][] = [[]];
  words.forEach((word, i) => {
    const last = pieces.at(-1)!;
    if (begins(words.slice(i, i + longestName).join(" ")) && isWhole(last.slice(-longestPiece).join(" ")))
      pieces.push([word]);
    else last.push(word);
  });
  return pieces.map((piece) => piece.join(" ")).filter((piece) => /\d/.test(piece));
}
