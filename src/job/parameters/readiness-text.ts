// Readiness as people write it, "Catalyst: not complete".

import { continuous, perDrive, type ReadinessState } from "./readiness.ts";

/** In order: the first that fits a line names its test. Own list of usual words. */
const saidAs: readonly (readonly [id: string, RegExp])[] = [
  ["heated-catalyst", /heated cat/i],
  ["catalyst", /\bcat(alyst)?\b/i],
  ["heater", /(o2|oxygen|lambda).*heat/i],
  ["oxygen-sensor", /(o2|oxygen|lambda)\b/i],
  ["misfire", /misfire/i],
  ["fuel", /\bfuel (system|sys|trim)\b/i],
  ["components", /components?\b|\bccm\b/i],
  ["vapour", /evap|vapou?r/i],
  ["secondary-air", /secondary air/i],
  ["filter", /particulate|a\/c|air con/i],
  ["recirculation", /\begr\b|recirc|\bvvt\b|valve timing/i],
];

/** Null where a line says nothing of a test. */
function stateSaid(line: string): ReadinessState | null {
  if (/not (supported|fitted|available)|unsupported|n\/a|\bnone\b/i.test(line)) return "not-fitted";
  if (/not (yet )?(complete|ready|finished|done|run)|incomplete|unfinished|\binc\b|\bopen\b/i.test(line))
    return "not-complete";
  return /complete|ready|finished|\bdone\b|\bok\b|passed/i.test(line) ? "complete" : null;
}

/**
 * One test a line or between commas.
 *
 * @returns bytes A to D as PID $01 would have them, A zero: lamp and count are not told; null where no test is named.
 */
export function readinessInText(text: string): readonly number[] | null {
  const bytes = [0, 0, 0, 0];
  let isTold = false;
  for (const piece of text.split(/\r\n|\r|\n|[;,|]/)) {
    const [id, state] = [saidAs.find(([, says]) => says.test(piece))?.[0], stateSaid(piece)];
    if (!id || !state || /\bloop\b/i.test(piece)) continue;
    isTold = true;
    if (state !== "not-fitted") mark(bytes, id, state === "not-complete" ? 1 : 0);
  }
  return isTold ? bytes : null;
}

function mark(bytes: number[], id: string, isOpen: 0 | 1): void {
  const always = continuous.findIndex(([name]) => name === id);
  const perTrip = perDrive.findIndex(([name]) => name === id);
  if (always >= 0) bytes[1]! |= (1 << always) | (isOpen << (always + 4));
  if (perTrip >= 0) {
    bytes[2]! |= 1 << perTrip;
    bytes[3]! |= isOpen << perTrip;
  }
}
