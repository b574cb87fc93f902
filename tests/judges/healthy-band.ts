// npm run judge:band: whether the recorded rear of sound cars of the second and third plant lies in the grey band of a sound catalyst, and whether
// dead ones leave it; writes healthy-band.md. Neither plant's code is known to the band.

import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Capture } from "../../src/capture/model/capture.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import { healthyTrace } from "../../src/exhaust/healthy-trace.ts";
import type { HealthyTrace } from "../../src/exhaust/store/healthy.ts";
import { channelsOf } from "../../src/exhaust/terms/channels.ts";
import { defaultLimits } from "../../src/exhaust/terms/limits.ts";
import { type Series, timeAt } from "../../src/signal/series/series.ts";
import { judgedRecording } from "./recording.ts";

export interface InBand {
  readonly explained: number;
  /** Whether the program draws a band at all. */
  readonly isDrawn: boolean;
  /** Share of the rear's samples that lie in it. */
  readonly inside: number;
  /** Lift-offs that count, and those at which the rear fell out of it, more than 0.1 V below. */
  readonly liftOffs: number;
  readonly left: number;
}

/** V below the band that is clearly out of it; s about a lift-off that are looked at. */
const clearly = 0.1;
const look = { before: 0.2, after: 3 };

/** @returns null where the program has no fit. */
export function inBand(capture: Capture): InBand | null {
  const { storeStudy, awake, warmth, liftOffs, bank } = analyse(capture);
  if (!storeStudy) return null;
  const { explained, row } = storeStudy;
  const isDrawn = explained >= defaultLimits.bandExplained.value;
  const trace = healthyTrace(capture, { bank }, { storeStudy, awake, warmth });
  const rear = channelsOf(capture, bank).rear!.series;
  const below = depthsOf(trace, rear, Math.min(row, 0.15) / 2);
  const counted = liftOffs.filter(({ setAside, frontFall }) => setAside === null && frontFall.value !== null);
  const leaves = ({ frontFall }: (typeof counted)[number]) =>
    below.some(({ time, depth }) => {
      const since = time - frontFall.value!;
      return depth > clearly && since > -look.before && since < look.after;
    });
  const inside = below.filter(({ out }) => out === 0).length / Math.max(1, below.length);
  return { explained, isDrawn, inside, liftOffs: counted.length, left: counted.filter(leaves).length };
}

interface Depth {
  readonly time: number;
  /** V out of the band, and below it. */
  readonly out: number;
  readonly depth: number;
}

/** Of every sample of the rear where there is a band; a sample may be `reach` s off in time. */
function depthsOf({ from, step, low, high }: HealthyTrace, { samples, time }: Series, reach: number): Depth[] {
  const cells = Math.max(1, Math.round(reach / step));
  return [...samples].flatMap((volts, i) => {
    const at = timeAt(time, i);
    const k = Math.floor((at - from) / step);
    const near = [k - cells, k, k + cells].filter((cell) => low[cell]! <= high[cell]!);
    if (near.length === 0 || Number.isNaN(volts)) return [];
    const depth = Math.min(...near.map((cell) => low[cell]!)) - volts;
    return [{ time: at, depth, out: Math.max(0, depth, volts - Math.max(...near.map((cell) => high[cell]!))) }];
  });
}

const cars = 16;

async function table(): Promise<string> {
  const lines = [
    "# The recorded rear and the grey band of a sound catalyst",
    "",
    `Made by \`npm run judge:band\`: cars 0 to ${cars - 1} of the second and the third plant. “Drawn” where the fit explains ${100 * defaultLimits.bandExplained.value} % of the rear's movement`,
    "or more. “Left” counts the lift-offs at which the rear lay more than 0.1 V below the band.",
    "",
    "| car | explained | drawn | rear in the band | lift-offs | left |",
    "| --- | --- | --- | --- | --- | --- |",
  ];
  const sums: string[] = [];
  const groups = (["second", "third"] as const).flatMap((plant) =>
    (["healthy", "dead"] as const).map((kind) => ({ plant, kind })),
  );
  for (const { plant, kind } of groups) {
    const drawn: InBand[] = [];
    for (let number = 0; number < cars; number++) {
      const found = inBand((await judgedRecording(plant, kind, number)).capture);
      if (found?.isDrawn) drawn.push(found);
      lines.push(`| ${plant} ${kind} ${number} | ${found ? rowOf(found) : "no fit | | | |"} |`);
    }
    sums.push(
      `${plant} ${kind}: ${drawn.length} of ${cars} drawn; rear in the band ${range(drawn)}; left at ${count(drawn)} lift-offs.`,
    );
  }
  return [...lines, "", ...sums.map((sum) => `- ${sum}`), ""].join("\n");
}

const percent = (share: number) => `${(100 * share).toFixed(0)} %`;
const rowOf = ({ explained, isDrawn, inside, liftOffs, left }: InBand) =>
  [percent(explained), isDrawn ? "yes" : "no", percent(inside), liftOffs, left].join(" | ");
const count = (all: readonly InBand[]) =>
  `${all.reduce((sum, { left }) => sum + left, 0)} of ${all.reduce((sum, { liftOffs }) => sum + liftOffs, 0)}`;
function range(all: readonly InBand[]): string {
  const sorted = all.map(({ inside }) => inside).sort((a, b) => a - b);
  if (sorted.length === 0) return "-";
  return `${percent(sorted[0]!)} of the time at least, ${percent(sorted[sorted.length >> 1]!)} in the middle`;
}

if (process.argv[1]?.endsWith("healthy-band.ts"))
  writeFileSync(join(import.meta.dirname, "healthy-band.md"), await table());
