// Words of logs as numbers: fuel-system status as the bits of the standard's parameter $03, switches as 0 and 1.

// SAE J1979 / ISO 15031-5, service $01, parameter $03: 1 open loop, not warm; 2 closed; 4 open by load or fuel cut while slowing
// down; 8 open, fault; 16 closed, fault in a sensor. (Bit 1 from memory, the others as in published tables of the standard.)
const words: readonly (readonly [RegExp, number])[] = [
  [/fault|fehler|error|defaut|fallo/, 0],
  [/drive|load|decel|cut|last|schub|power|enrich|accel/, 4],
  [/^cl\b|closed|geschlossen|boucle fermee|lazo cerrado|^bf\b/, 2],
  [/^ol\b|open|offen|boucle ouverte|lazo abierto|^bo\b/, 1],
];

/** Bit of the standard behind a word or number; null when it says nothing of the kind. */
export function statusIn(cell: string): number | null {
  const text = cell
    .trim()
    .normalize("NFD")
    .replace(/[\u0300-\u036f]/g, "")
    .toLowerCase();
  if (/^(0x)?\d{1,2}h?$/.test(text)) return Number.parseInt(text.replace(/^0x|h$/g, ""), /^0x|h$/.test(text) ? 16 : 10);
  const isClosed = words[2]![0].test(text);
  const isOpen = words[3]![0].test(text) || words[1]![0].test(text);
  if (!isClosed && !isOpen) return null;
  if (words[0]![0].test(text)) return isClosed ? 16 : 8;
  if (isClosed && !/^ol\b|^open\b/.test(text)) return 2;
  return words[1]![0].test(text) ? 4 : 1;
}

const switched: readonly ReadonlySet<string>[] = [
  new Set("off false no aus falsch nein faux non apagado spento uit nee".split(" ")),
  new Set("on true yes ein an wahr ja vrai oui encendido acceso aan si sì sí".split(" ")),
];

/** 0 for off, 1 for on; null for any other word. */
export function switchIn(cell: string): 0 | 1 | null {
  const word = cell.trim().toLowerCase();
  if (switched[0]!.has(word)) return 0;
  return switched[1]!.has(word) ? 1 : null;
}
