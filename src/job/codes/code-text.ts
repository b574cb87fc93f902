// Codes in any text: typed, copied from a work order, or out of another program's report.

import { type CodeName, type CodeState, type FaultCode, isCode } from "./code.ts";

/**
 * A letter O for a zero is a slip of the hand; ahead of less than two digits it is one of a word, "coded". A C apart
 * that follows a number is of degrees: "90 C 2000 rpm" tells of no code.
 */
const codeForm = /(?<![A-Za-z0-9])([PBU][\s-]?|C-?|(?<!\d[\s°º]*)C\s)([0-3O][0-9A-FO]{3})(?![0-9A-Za-z])/gi;

/** Words that tell which list a code stood in. "No pending codes" and "not stored" tell of no code. */
const negation = String.raw`(?<!\b(?:no|not|without)\s+(?:\w+\s+){0,2})`;
const stateForm = new RegExp(
  String.raw`(?<pending>not (?:yet )?confirmed|unconfirmed|${negation}\bpending)|${negation}\b(?:(?<permanent>permanent)|(?<stored>stored|confirmed|current|active))\b`,
  "gi",
);

/** A code or a word of state, and where it stands in its line. */
interface Token {
  readonly from: number;
  readonly to: number;
  readonly code: CodeName | null;
  readonly state: CodeState | null;
}

/**
 * All codes in `text`, each once, in order. "p 0420", "PO420", "P0420-00" and "P0420:" are P0420. The state is what its line
 * says of it, else the heading above, else `state`.
 */
export function codesInText(text: string, state: CodeState = "stored"): FaultCode[] {
  const found = new Map<CodeName, Set<CodeState>>();
  let heading = state;
  for (const line of text.split(/\r\n|\r|\n/)) {
    const tokens = tokensOf(line);
    const isHeading = tokens.every(({ code }) => code === null) && !/\b(none|nil|0)\b/i.test(line);
    if (isHeading) heading = tokens.at(-1)?.state ?? heading;
    for (const [code, said] of toldOn(line, tokens, heading)) {
      found.set(code, (found.get(code) ?? new Set()).add(said));
    }
  }
  return [...found].map(([code, states]) => ({ code, states: [...states] }));
}

/** A line with a bar for each of its codes, without the byte of a failure type behind them: "P0420-00". */
export function withoutCodes(line: string): string {
  const codes = tokensOf(line).filter(({ code }) => code !== null);
  const bounds = [0, ...codes.flatMap(({ from, to }) => [from, to]), line.length];
  const left = codes.map((_, i) => line.slice(bounds[2 * i + 2], bounds[2 * i + 3]).replace(/^[-:][0-9A-F]{2}\b/i, ""));
  return [line.slice(0, bounds[1]), ...left].join("|");
}

function tokensOf(line: string): Token[] {
  const codes = [...line.matchAll(codeForm)].flatMap((match) => {
    const code = `${match[1]![0]}${match[2]!.replace(/o/gi, "0")}`.toUpperCase();
    const isWord = /^o/i.test(match[2]!) && (match[2]!.match(/\d/g) ?? []).length < 2;
    return isCode(code) && !isWord ? [{ ...placeOf(match), code, state: null }] : [];
  });
  const words = [...line.matchAll(stateForm)].map((match) => {
    const state = Object.entries(match.groups!).find(([, said]) => said !== undefined)![0] as CodeState;
    return { ...placeOf(match), code: null, state };
  });
  return [...codes, ...words].sort((a, b) => a.from - b.from);
}

const placeOf = (match: RegExpExecArray) => ({ from: match.index, to: match.index + match[0].length });

/** Each code of a line with its state: a word ahead holds until the next one, a word behind holds for the code beside it. */
function toldOn(line: string, tokens: readonly Token[], heading: CodeState): [CodeName, CodeState][] {
  const told: [CodeName, CodeState][] = [];
  let ahead = heading;
  tokens.forEach(({ code, state }, i) => {
    if (code !== null) told.push([code, ahead]);
    else if (leads(line, tokens, i)) ahead = state!;
    else if (tokens[i - 1]!.code === null) told.push([told.at(-1)![0], state!]);
    else for (let back = 1; back <= beside(line, tokens, i); back++) told.at(-back)![1] = state!;
  });
  return told;
}

/** How many codes the word at `i`, behind them, is said of: "P0171 and P0174 pending" of both, "P0420, P0133 pending" of one. */
function beside(line: string, tokens: readonly Token[], i: number): number {
  let count = 1;
  for (let j = i - 1; tokens[j - 1]?.code; j--, count++) {
    if (!/^\s*(and|or|&|\/|\+)\s*$/i.test(line.slice(tokens[j - 1]!.to, tokens[j]!.from))) break;
  }
  return count;
}

/** "Pending: P0302", "stored codes P0420", "P0420, pending P0302"; but "P0420 pending P0171 stored" and "(pending)" look back. */
function leads(line: string, tokens: readonly Token[], i: number): boolean {
  const here = tokens[i]!;
  if (tokens.slice(0, i).every(({ code }) => code === null)) return true;
  const behind = line.slice(here.to);
  if (/^\s*(codes?|faults?|dtcs?)?\s*[:=]|^\s*(codes?|faults?|dtcs?)\b/i.test(behind)) return true;
  const gap = line.slice(tokens[i - 1]!.to, here.from);
  if (/[([]\s*$/.test(gap)) return false;
  if (/[.;]\s/.test(gap)) return true;
  if (tokens[i - 1]!.code === null) return false;
  const after = tokens[i + 1];
  const touchesNext = after?.code != null && /^\s+$/.test(line.slice(here.to, after.from));
  return touchesNext && (tokens[0]!.state !== null || /[,|]\s*$/.test(gap));
}

/** Lists of which a text says that they hold no code: "no pending codes", "permanent: none", also as a heading and its line. */
export function emptyListsIn(text: string): CodeState[] {
  return (["stored", "pending", "permanent"] as const).filter((state) =>
    new RegExp(
      String.raw`\b(no|0|zero)\s+((stored|pending|permanent)\s*(,|or|and)\s*)*${state}\b|\b${state}(\s+(diagnostic|trouble|fault|codes?|dtcs?|faults?))*[\s:=_*(-]*(none|nil|0|empty|no (trouble |fault )?(codes?|dtcs?|faults?))\b`,
      "i",
    ).test(text),
  );
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
