// Files that are certainly no recording, told by their first bytes: what they look like, and what would help.

import { ProblemError } from "../problem.ts";

interface Sign {
  readonly what: string;
  /** Bytes in hex, ".." for any byte; or a pattern on the text. */
  readonly starts: string | RegExp;
  readonly remedy?: string;
}

const exportIt = "Open it in the program it belongs to and export the recording as delimited text (CSV).";

const signs: readonly Sign[] = [
  { what: "a PNG picture", starts: "89504e47" },
  { what: "a JPEG picture", starts: "ffd8ff" },
  { what: "a GIF picture", starts: "47494638" },
  { what: "a WebP picture", starts: "52494646........57454250" },
  { what: "a video (AVI)", starts: "52494646........41564920" },
  { what: "a TIFF picture", starts: "49492a00" },
  { what: "a TIFF picture", starts: "4d4d002a" },
  { what: "a bitmap picture", starts: "424d........00000000" },
  { what: "a video or picture (ISO media)", starts: "........66747970" },
  { what: "a PDF document", starts: "25504446" },
  { what: "a PostScript document", starts: "25215053" },
  { what: "a rich-text document", starts: "7b5c727466" },
  { what: "a program", starts: "7f454c46" },
  { what: "a program", starts: "4d5a....0[0-9a-f]00" },
  { what: "a program", starts: "cafebabe" },
  { what: "a program", starts: "c[ef]faedfe" },
  { what: "a program", starts: "0061736d" },
  { what: "a web page", starts: /^\s*(<!--[\s\S]{0,400}?-->\s*)?<(!doctype html|html|head|body)\b/i },
  {
    what: "a drawing (SVG)",
    starts: /^\s*(<\?xml[^>]*>\s*)?(<!--[\s\S]{0,400}?-->\s*)?(<!doctype svg[^>]*>\s*)?<svg\b/i,
  },
  { what: "an XML document", starts: /^\s*<\?xml\b/i, remedy: exportIt },
  { what: "a JSON document", starts: /^\s*(\{\s*"|\[\s*[{["])/, remedy: exportIt },
  { what: "a database (SQLite)", starts: "53514c69746520666f726d6174", remedy: exportIt },
  { what: "an old office document", starts: "d0cf11e0", remedy: exportIt },
  { what: "an HDF5 container", starts: "894844460d0a1a0a", remedy: exportIt },
  { what: "a 7-Zip archive", starts: "377abcaf271c", remedy: "Unpack it and open the recording inside." },
  { what: "a RAR archive", starts: "526172211a07", remedy: "Unpack it and open the recording inside." },
  { what: "an xz archive", starts: "fd377a585a00", remedy: "Unpack it and open the recording inside." },
  { what: "a bzip2 archive", starts: "425a68[3][1-9]314159", remedy: "Unpack it and open the recording inside." },
  { what: "a Zstandard archive", starts: "28b52ffd", remedy: "Unpack it and open the recording inside." },
  { what: "a FLAC sound file", starts: "664c6143", remedy: "Convert it to WAV and open that." },
  {
    what: "an Ogg sound file",
    starts: "4f676753",
    remedy: "Convert it to WAV and open that; compressed sound bends the trace.",
  },
  { what: "an MP3 sound file", starts: "494433", remedy: "Record as WAV; compressed sound bends the trace." },
  { what: "a font", starts: "774f46(46|32)" },
];

/** What the first bytes look like when they are certainly no recording; null otherwise. */
function otherKindOf(head: Uint8Array): { readonly what: string; readonly remedy: string } | null {
  const hex = Array.from(head.subarray(0, 32), (byte) => byte.toString(16).padStart(2, "0")).join("");
  const text = new TextDecoder("latin1")
    .decode(head.subarray(0, 1024))
    .replace(/^(\u00ef\u00bb\u00bf|\u00ff\u00fe|\u00fe\u00ff)/, "")
    .replaceAll("\0", "");
  const sign = signs.find(({ starts }) =>
    typeof starts === "string" ? new RegExp(`^${starts}`).test(hex) : starts.test(text),
  );
  return sign
    ? { what: sign.what, remedy: sign.remedy ?? "Choose the recording itself: the file your recorder wrote." }
    : null;
}

/** @throws ProblemError "not-a-recording" for bytes that are certainly something else. */
export function refuseOtherKinds(head: Uint8Array, name: string): void {
  const other = otherKindOf(head);
  if (!other) return;
  throw new ProblemError({
    code: "not-a-recording",
    what: `${name} is ${other.what}, not a recording.`,
    remedy: other.remedy,
    where: name,
  });
}

export function unknownBytes(name: string): ProblemError {
  return new ProblemError({
    code: "unknown-form",
    what: `${name} is neither text nor any of the open formats known here.`,
    remedy:
      'Export the recording as delimited text (CSV); or, if these are raw numbers, state their layout, as in "32-bit floating, low byte first, 2 channels, 1000 per second" (--layout on the command line).',
    where: name,
  });
}
