// Codes in any text: typed, copied from a work order, or out of another program's report.

import { type CodeName, type CodeState, type FaultCode, isCode } from "./code.ts";

/** Words that tell which list a code stood in, nearest before it. */
const stateWords: readonly (readonly [CodeState, RegExp])[] = [
  ["pending", /pending|not (yet )?confirmed|unconfirmed/gi],
  ["permanent", /permanent/gi],
  ["stored", /stored|confirmed|current|active/gi],
];

/**
 * All codes in `text`, each once, in order. "p 0420", "P0420-00" and "P0420:" are P0420. The state is what its line says of
 * it, else the heading above, else `state`.
 */
export function codesInText(text: string, state: CodeState = "stored"): FaultCode[] {
  const found = new Map<CodeName, Set<CodeState>>();
  let heading = state;
  for (const line of text.split(/\r\n|\r|\n/)) {
    const said = stateIn(line);
    const codes = [...line.matchAll(/(?<![A-Za-z0-9])([PCBU])\s?([0-3][0-9A-F]{3})(?![0-9A-Za-z])/gi)]
      .map((match) => `${match[1]}${match[2]}`.toUpperCase())
      .filter(isCode);
    if (codes.length === 0 && said) heading = said;
    for (const code of codes) found.set(code, (found.get(code) ?? new Set()).add(said ?? heading));
  }
  return [...found].map(([code, states]) => ({ code, states: [...states] }));
}

function stateIn(line: string): CodeState | null {
  return stateWords.find(([, words]) => line.match(words))?.[0] ?? null;
}

/** Both lists as one: each code once, with all states it stood in. */
export function joinCodes(first: readonly FaultCode[], second: readonly FaultCode[]): FaultCode[] {
  const all = new Map<CodeName, Set<CodeState>>();
  for (const { code, states } of [...first, ...second]) {
    const known = all.get(code) ?? new Set<CodeState>();
    for (const one of states) known.add(one);
    all.set(code, known);
  }
  return [...all].map(([code, states]) => ({ code, states: [...states] }));
}
