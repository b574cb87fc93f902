// An oxygen sensor from the gas inwards: gas creeps through its coat, the cell answers with the logarithm, the module loads it.

import { type Gas, oxygenOfAir } from "./gas.ts";

export interface CellSpec {
  /** s, first order: through the coat, towards lean and towards rich; then of cell and wiring. */
  readonly coatLean: number;
  readonly coatRich: number;
  readonly wiring: number;
  /** degC of the element: at the start, heated; s until it is. */
  readonly startsAt: number;
  readonly heatedTo: number;
  readonly heats: number;
  /** degC at which it can be read half; V shown while it cannot. */
  readonly wakes: number;
  readonly idleVolts: number;
  /** Width of the jump, as an excess; V by which rich gas reads higher than the handbook's curve; hydrogen counts so much more. */
  readonly width: number;
  readonly richer: number;
  readonly hydrogenSense: number;
  /** Share of unburnt fuel that its electrode can burn. */
  readonly burnsFuel: number;
}

const faraday = 96485.332;
const gasConstant = 8.31446;

/**
 * V of a cell in gas of net excess n: Nernst over free oxygen on the lean side, over CO and CO2 in balance on the rich side
 * (twice the slope), and in between the two by their algebraic shares: no tanh. Balance constant so that an excess of -0.01 reads 0.85 V
 * at 650 degC (from memory).
 */
export function cellVolts(
  { width, richer }: Pick<CellSpec, "width" | "richer">,
  excess: number,
  celsius: number,
): number {
  const slope = (gasConstant * (celsius + 273.15)) / (4 * faraday);
  const root = Math.hypot(excess, width);
  const lean = (root + excess) / 2;
  const rich = (root - excess) / 2;
  const leanVolts = slope * Math.log(1 / Math.min(1, Math.max(lean, 1e-6)));
  const richVolts = 0.85 + richer - 0.00035 * (celsius - 650) + 2 * slope * Math.log(Math.max(rich, 1e-5) / 0.01);
  return leanVolts + (richVolts - leanVolts) * (rich / (lean + rich)) ** 1.5;
}

/** A sensor at work. */
export class Cell {
  private coat = 0;
  private volts: number;
  private celsius: number;

  private readonly spec: CellSpec;
  private readonly step: number;

  constructor(spec: CellSpec, step: number) {
    this.spec = spec;
    this.step = step;
    this.volts = spec.idleVolts;
    this.celsius = spec.startsAt;
  }

  /** One step. @returns V at its leads. */
  feel(gas: Gas, isHeated: boolean): number {
    const { spec, step } = this;
    if (isHeated) this.celsius += (spec.heatedTo - this.celsius) * (1 - Math.exp(-step / spec.heats));
    const excess = this.excessOf(gas);
    // A cool element answers up to five times as slowly.
    const awake = 1 / (1 + Math.exp((spec.wakes - this.celsius) / 18));
    const pace = step * (0.2 + 0.8 * awake);
    const lag = excess > this.coat ? spec.coatLean : spec.coatRich;
    this.coat += (excess - this.coat) * (1 - Math.exp(-pace / lag));
    const wanted = cellVolts(spec, this.coat, this.celsius);
    this.volts += (wanted - this.volts) * (1 - Math.exp(-pace / spec.wiring));
    return spec.idleVolts + (this.volts - spec.idleVolts) * awake;
  }

  /** Beyond a few per cent the coat is saturated: what comes in is bounded by what it lets through. */
  private excessOf(gas: Gas): number {
    const { hydrogenSense, burnsFuel } = this.spec;
    const net = gas.oxygen - gas.reductant - hydrogenSense * gas.hydrogen - burnsFuel * gas.unburnt;
    return Math.min(1, Math.max(-0.3, net / oxygenOfAir));
  }
}
