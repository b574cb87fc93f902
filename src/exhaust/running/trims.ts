// Fuel trims of a stretch: what the module adds or takes away to keep the mixture right.

import { measured, notResolvable, type Reading } from "../../signal/numbers/reading.ts";
import { coverage } from "../../signal/numbers/student.ts";
import { within } from "../../signal/series/reel.ts";
import type { Series } from "../../signal/series/series.ts";
import { quantisationOf } from "../../signal/statistics/quantisation.ts";
import type { FuelTrims, Span } from "../terms/analysis.ts";
import type { BankChannels } from "../terms/channels.ts";
import { heldShareOf } from "./loop.ts";

/** One step of the diagnostic standard's trim byte, 100/128 %: values are never finer. */
const trimStep = 100 / 128;

/** (1 + S/100)(1 + L/100) - 1, all in %. */
export function totalTrim(short: number, long: number): number {
  return 100 * ((1 + short / 100) * (1 + long / 100) - 1);
}

/** @returns null when neither trim was recorded. Not resolvable where the loop is known to be open. */
export function trimsOf(channels: BankChannels, span: Span, closedLoop: FuelTrims["closedLoop"]): FuelTrims | null {
  if (!channels.shortTrim && !channels.longTrim) return null;
  const status = channels.fuelStatus ? heldShareOf(channels.fuelStatus.series, span, 2) : null;
  if (status !== null && status < 0.5) return openLoop(closedLoop);
  const short = meanTrim(channels.shortTrim?.series, span, "short fuel trim");
  const long = meanTrim(channels.longTrim?.series, span, "long fuel trim");
  return { short, long, total: total(short, long), closedLoop };
}

function openLoop(closedLoop: FuelTrims["closedLoop"]): FuelTrims {
  const none = notResolvable("%", "The loop was open here, so the trims do not follow the mixture.");
  return { short: none, long: none, total: none, closedLoop };
}

/** Mean over the stretch; the trim goes up and down with the loop, so the middle of its range stands for it. */
function meanTrim(series: Series | undefined, span: Span, name: string): Reading {
  if (!series) return notResolvable("%", `No ${name} was recorded.`);
  const samples = [...within(series, span.from, span.to).samples].filter(Number.isFinite);
  if (samples.length < 3) return notResolvable("%", `Fewer than three samples of the ${name} here.`);
  const mean = samples.reduce((sum, value) => sum + value, 0) / samples.length;
  const spread = Math.sqrt(samples.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (samples.length - 1));
  // Successive samples of a loop are not independent: taken as four to one.
  const half =
    coverage * spread * Math.sqrt(4 / Math.max(4, samples.length)) +
    Math.max(trimStep, quantisationOf(series.samples)) / 2;
  return measured(mean, [mean - half, mean + half], "%", { count: samples.length });
}

/** With one trim only, the other may be anything: not resolvable, but the one is shown. */
function total(short: Reading, long: Reading): Reading {
  if (short.value === null || long.value === null) {
    return notResolvable("%", "Both trims are needed for the total.");
  }
  const bounds = [totalTrim(short.low!, long.low!), totalTrim(short.high!, long.high!)] as const;
  return measured(totalTrim(short.value, long.value), bounds, "%");
}
