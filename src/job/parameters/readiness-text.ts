// Readiness as people write it, "Catalyst: not complete".

import { continuous, perDrive, type ReadinessState } from "./readiness.ts";

/** In order: the first that fits names the test. Own list of usual words. */
const saidAs: readonly (readonly [id: string, RegExp])[] = [
  ["heated-catalyst", /\bheated cat(alyst|alytic)?\b/i],
  ["catalyst", /\bcat(alyst|alytic)?\b/i],
  ["heater", /\b(o2|oxygen|lambda)\b.*\bheat(ers?|ed)?\b|^\W*heaters?\b/i],
  ["oxygen-sensor", /\b(o2|oxygen|lambda)\b/i],
  ["misfire", /\bmisfir(es?|ing)\b/i],
  ["fuel", /\bfuel (system|sys|trim)\b/i],
  ["components", /\bcomponents?\b|\bccm\b/i],
  ["vapour", /\bevap(orative)?\b|\bvapou?r\b/i],
  ["secondary-air", /\bsecondary air\b/i],
  ["filter", /\bparticulate\b|\ba\/c\b|\bair con(ditioning)?\b/i],
  ["recirculation", /\begr\b|\brecirc(ulation)?\b|\bvvt\b|\bvalve timing\b/i],
];
/** Tests whose words stand in the name of another one. */
const within: Readonly<Record<string, string>> = { "heated-catalyst": "catalyst", heater: "oxygen-sensor" };

const done = "(?:completed?|ready|finished|done|ok(?:ay)?|passed)";
const isDone = new RegExp(String.raw`\b${done}\b`, "i");
const absent = /\b(?:not (?:supported|fitted|available)|unsupported)\b|\bn\/a|\bnone\b/i;
const denied = new RegExp(
  [
    String.raw`\b(?:not|never|cannot|no longer|unable|failed to|yet to|almost|nearly|\w+n't)\b(?: \w+){0,4}? (?:${done}|completion|finish|run|ran)\b`,
    String.raw`\b(?:no|un|in)[ -]?${done}\b|\b${done}\b\W*\b(?:no|not|false)\b|\b(?:inc|open)\b`,
  ].join("|"),
  "i",
);
/** Words that change nothing where they stand beside a test that is complete; any other may. */
const plain = new RegExp(
  String.raw`\b(?:${done}|the|of|is|are|was|were|has|have|been|and|or|all|now|yes|run|monitor(?:s|ing)?|tests?|status|state|readiness|sensors?|system|sys|converter|efficiency|heat(?:ers?|ed|ing)?|gas|comprehensive|emissions?|leak|refrigerant|bank \d|b\ds?\d?|s\d|(?:sensor|system) \d)\b`,
  "gi",
);

/** A part of a line, and what it says. */
interface Piece {
  readonly text: string;
  /** Every test that it names. */
  readonly tests: readonly string[];
  readonly state: ReadinessState | null;
  /** Nothing but a test, a state, or both: what stands beside it may tell of it as well. */
  readonly isBare: boolean;
  /** It tells a state and names no test. */
  readonly isState: boolean;
}

export interface ReadinessText {
  /** Id of a test -> what is said of it. */
  readonly tests: ReadonlyMap<string, ReadinessState>;
  readonly unread: readonly { readonly line: number; readonly says: string }[];
  /** The text without what was told of readiness, line for line. */
  readonly rest: string;
}

/**
 * One test a line or between commas. A state ahead holds for the tests behind it, "not ready: catalyst, EVAP"; else one behind
 * for those ahead, "catalyst, EVAP: not ready". What names a test and leaves its state open is told as unread.
 */
export function readinessInText(text: string): ReadinessText {
  const tests = new Map<string, ReadinessState>();
  const unread: { line: number; says: string }[] = [];
  const rest = text.split(/\r\n|\r|\n/).map((line, i) => {
    const pieces = cut(line).map(pieceOf);
    const states = carried(pieces);
    const left = pieces.filter((piece, k) => {
      const { tests: named, isState, text: said } = piece;
      const [test] = named;
      if (named.length === 1 && states[k]) tests.set(test!, states[k]!);
      else if (named.length > 0 || (isState && !isHeading(pieces, k)))
        unread.push({ line: i + 1, says: `Not understood: “${said.trim()}”. ${writeSo}` });
      return named.length === 0 && !isState;
    });
    return left.map((piece) => piece.text).join(";");
  });
  return { tests, unread, rest: rest.join("\n") };
}

const writeSo = "Write each test with its state, “catalyst: not complete”.";

/** At semicolons, bars and commas that are no decimal mark, and at "and" between tests. */
function cut(line: string): string[] {
  return line.split(/[;|]|(?<!\d),|,(?!\d)/).flatMap((part) => {
    const both = part.split(/\s(?:and|&|\+)\s/i);
    return both.every((one) => testsIn(one).length === 1) ? both : [part];
  });
}

function testsIn(text: string): string[] {
  const found = saidAs.filter(([, says]) => says.test(text)).map(([id]) => id);
  return found.filter((id) => !found.some((other) => within[other] === id));
}

/** A temperature, a number or the state of a loop is none of readiness. */
function pieceOf(text: string): Piece {
  const said = text.replace(/[’`]/g, "'").replace(/^\s*\d{1,2}[.):]\s/, "");
  const others = saidAs.reduce((left, [, says]) => left.replace(says, " "), said).replace(plain, " ");
  const isOther = /\bloop\b|\btemp|\d/i.test(others);
  const state = isOther ? null : stateSaid(said, /\w/.test(others));
  const isBare = !isOther && !/\w/.test(others.replace(denied, " ").replace(absent, " "));
  const tests = isOther ? [] : testsIn(said);
  const isState = !isOther && tests.length === 0 && (isDone.test(said) || (isBare && state !== null));
  return { text, tests, state, isBare, isState };
}

/** Null where nothing is said, or where a word beside "complete" may turn it. */
function stateSaid(said: string, hasOthers: boolean): ReadinessState | null {
  if (absent.test(said)) return isDone.test(said) ? null : "not-fitted";
  if (denied.test(said)) return "not-complete";
  return isDone.test(said) && !hasOthers ? "complete" : null;
}

/** The state of each piece, its own or that beside it. */
function carried(pieces: readonly Piece[]): (ReadinessState | null)[] {
  const first = pieces.findIndex(({ tests, state }) => tests.length > 0 || state !== null);
  const isAhead = first >= 0 && leads(pieces[first]!);
  const states = pieces.map(({ state }) => state);
  const order = isAhead ? pieces.keys() : [...pieces.keys()].reverse();
  let said: ReadinessState | null = null;
  for (const i of order) {
    const { isBare, tests } = pieces[i]!;
    said = states[i] ?? (isBare ? said : null);
    if (tests.length > 0) states[i] = said;
  }
  return states;
}

/** Whether a state stands ahead of the test, or for itself. */
function leads({ text, tests, state }: Piece): boolean {
  if (state === null) return false;
  const at = Math.min(...[denied, absent, isDone].map((says) => says.exec(text)?.index ?? text.length));
  return tests.length === 0 || saidAs.every(([, says]) => (says.exec(text)?.index ?? text.length) > at);
}

/** A state by itself beside a test that has none of its own. */
const isHeading = (pieces: readonly Piece[], k: number): boolean =>
  [pieces[k - 1], pieces[k + 1]].some((piece) => piece && piece.tests.length > 0 && piece.state === null);

/** Bytes A to D as PID $01 would have them, with what is told put into those that were there; A tells nothing. */
export function withTold(had: readonly number[], tests: ReadinessText["tests"]): number[] {
  const bytes = had.length === 4 ? [...had] : [0, 0, 0, 0];
  for (const [id, state] of tests) {
    const always = continuous.findIndex(([name]) => name === id);
    const perTrip = perDrive.findIndex(([name]) => name === id);
    if (always >= 0) put(bytes, state, { byte: 1, bit: always }, { byte: 1, bit: always + 4 });
    if (perTrip >= 0) put(bytes, state, { byte: 2, bit: perTrip }, { byte: 3, bit: perTrip });
  }
  return bytes;
}

interface Place {
  readonly byte: number;
  readonly bit: number;
}

function put(bytes: number[], state: ReadinessState, fitted: Place, open: Place): void {
  const set = ({ byte, bit }: Place, isSet: boolean) => {
    bytes[byte] = isSet ? bytes[byte]! | (1 << bit) : bytes[byte]! & ~(1 << bit);
  };
  set(fitted, state !== "not-fitted");
  set(open, state === "not-complete");
}
