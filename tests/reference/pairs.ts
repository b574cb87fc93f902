// npm run full:pairs: comparisons of many simulated pairs, judged by the simulator's truth. Fails where the wanted shares
// (95 %: bounds hold, identical catalysts are not told apart, unfair pairs are caught) do not hold.

import { medianOfNumbers } from "../../src/signal/statistics/statistics.ts";
import { type JudgedPair, judgePair, share } from "./pair-judge.ts";

const [count, first] = [Number(process.argv[2] ?? 150), 1000];
const judged = (kind: JudgedPair["kind"], pairs: number) =>
  Array.from({ length: pairs }, (_, k) => judgePair(kind, first + k));
const identical = judged("identical", count);
const different = judged("different", count);
const unfair = judged("unfair", Math.ceil(count / 3));
const all = [...identical, ...different, ...unfair];

const wanted = 0.95;
/** What chance leaves of it in 999 of 1,000 samples of `of` (normal approximation). */
const least = (of: number) => wanted - 3.09 * Math.sqrt((wanted * (1 - wanted)) / of) - 0.5 / of;
const lines: readonly (readonly [what: string, share: number, of: number])[] = [
  [
    "bounds of delay and oxygen ratio hold the truth",
    share(all.flatMap(({ held }) => held)),
    all.flatMap(({ held }) => held).length,
  ],
  [
    "one catalyst recorded twice: delay and oxygen not told apart",
    share(identical.map(({ leadTold }) => !leadTold)),
    count,
  ],
  [
    "one catalyst recorded twice: all readings not told apart",
    1 - mean(identical.map(({ toldShare }) => toldShare)),
    count,
  ],
  ["unfair pairs caught", share(unfair.map((one) => one.unfair && !one.leadTold)), unfair.length],
];
for (const [what, found] of lines) console.log(`${(100 * found).toFixed(1).padStart(6)} %  ${what}`);
const widths = all.flatMap((one) => one.widths);
console.log(`Bounds of the ratio, median width over value: ${medianOfNumbers(widths).toFixed(3)}`);
console.log(
  `Suspects with 8 to 75 % of the store told apart: ${(100 * share(different.map((one) => one.leadTold))).toFixed(1)} %`,
);
const wrong = lines.filter(([, found, of]) => !(found >= (count < 100 ? least(of) : wanted)));
for (const [what] of wrong) console.error(`Below ${100 * wanted} %: ${what}`);
process.exit(wrong.length === 0 ? 0 : 1);

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
