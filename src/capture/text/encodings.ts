// What a text may be written in.

/** As the platform's TextDecoder names them (WHATWG Encoding Standard), the likelier first; what they are called in remarks. */
export const codePages = {
  "windows-1252": "Windows-1252 (Latin-1)",
  "windows-1250": "Windows-1250 (Central Europe)",
  "windows-1251": "Windows-1251 (Cyrillic)",
  "windows-1253": "Windows-1253 (Greek)",
  "windows-1254": "Windows-1254 (Turkish)",
  shift_jis: "Shift JIS (Japanese)",
  "euc-jp": "EUC-JP (Japanese)",
  gbk: "GBK (Chinese)",
  big5: "Big5 (Chinese)",
  "iso-8859-2": "ISO 8859-2 (Central Europe)",
  "koi8-r": "KOI8-R (Cyrillic)",
  ibm866: "code page 866 (Cyrillic)",
  "iso-8859-5": "ISO 8859-5 (Cyrillic)",
  macintosh: "Mac Roman",
} as const;

export type CodePage = keyof typeof codePages;

export type Encoding = "utf-8" | "utf-16le" | "utf-16be" | CodePage;

export interface TextBytes {
  readonly encoding: Encoding;
  /** Bytes of the byte-order mark. */
  readonly skip: number;
}
