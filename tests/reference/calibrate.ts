// npm run calibrate: the calibration at length. Writes calibration.md beside this file; fails where the wanted shares do not hold; the number of trials may be given (`npm run calibrate -- 400`). `npm run long:calibrate` is the same with fewer trials and other seeds, and writes nothing.

import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { asTable, calibrate, failures } from "./calibration.ts";

const isCheck = process.argv.includes("--check");
const [trials, seed] = isCheck ? [1000, 20_000] : [Number(process.argv[2] ?? 6500), 1];
const calibration = calibrate(trials, seed);
const table = asTable(calibration);
console.log(table);
const wrong = failures(calibration);
if (!isCheck) {
  const text = `# How often the bounds hold

Made by \`npm run calibrate\`: up to ${trials} seeded cases of each quantity and kind of recorder, from closed forms (\`cases.ts\`):
scope 0.2 to 10 kHz, polled 1 to 10 Hz with jitter, repeated values and lost rows; noise 0 to 30 mV, steps 1 to 20 mV. Of what repeats
(\`repeated-cases.ts\`: medians, means, times of a cycle, shares of time, lags) at most 600.

- **held**: share of the cases with a claim (any bound, whatever the grade) whose bounds hold the truth. Wanted: 95 %.
- **measured**: share of the cases graded \`measured\`.
- **width / best**: median over measured cases of the width of the bounds over the narrowest possible: 0.95 steps for an
  edge that hides between two samples, 1.55 for the difference of two, 3.92 Cramer-Rao deviations with both levels, width
  and place of the edge unknown for all others (\`shapes.ts\`), by one who knows its form. A frequency: two instants, by one
  who knows whether cycles vary (\`cases.ts\`). Nobody told us either.
- **of any form**: the same against one who is not told the form of an edge: the Cramer-Rao bound when it may be any mixture
  of the three forms (of one middle and 10-90 % time), or the steps, where they leave less open and noise does not hide
  between which samples the edge lies.
- **by steps**: the same for coarse edges, taken for unresolved as they are: 0.95 steps, 1.55 for the difference of two.
- **all**: all cases of a quantity; "by steps" is then the median against the best for each case: the steps for an edge that
  is not resolved, the Cramer-Rao bound of its known form for one that is. Wanted: at most 2.
- **of whole**: the same against the Cramer-Rao bound of one sine over the whole record.
- hidden: fewer than 2 samples in the edge's 10-90 %; coarse: 2 to 10; resolved: more. Of two edges: hidden or resolved where both are.

${table}
`;
  writeFileSync(join(import.meta.dirname, "calibration.md"), text);
}
for (const sentence of wrong) console.error(sentence);
process.exit(wrong.length === 0 ? 0 : 1);
