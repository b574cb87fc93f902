// In which order codes are to be cured before a catalyst code is believed. Order and reasons: common practice.

import { type FaultCode, systemOf } from "./code.ts";
import { type CodeConcern, meaningOf } from "./code-words.ts";

/** Codes that are cured together, and why before the next. */
export interface CureStep {
  readonly title: string;
  readonly because: string;
  readonly codes: readonly FaultCode[];
}

export interface CureOrder {
  /** To be cured before the catalyst is judged, in this order; empty where nothing stands before it. */
  readonly first: readonly CureStep[];
  /** Catalyst codes, judged last. */
  readonly catalyst: readonly FaultCode[];
  /** Of this engine, without a place in the order: speed signals, the maker's own, others of the standard. */
  readonly others: readonly FaultCode[];
  /** Of another system: kept and set apart. */
  readonly apart: readonly FaultCode[];
}

interface Rule extends Omit<CureStep, "codes"> {
  readonly concerns: readonly CodeConcern[];
}

const rules: readonly Rule[] = [
  {
    title: "Misfire",
    concerns: ["misfire"],
    because:
      "Unburnt fuel and air reach the catalyst: it may be overheated, and both sensors read wrong. A new one would fail too.",
  },
  {
    title: "Heaters and circuits of the oxygen sensors",
    concerns: ["heater", "sensor"],
    because:
      "The catalyst is judged by these sensors. A cold, slow or miswired one looks like a worn catalyst, or hides it.",
  },
  {
    title: "Mixture, air meter, temperature",
    concerns: ["mixture", "air-meter", "temperature"],
    because: "Too rich or too lean, the store stays empty or full, and the rear sensor tells nothing of the catalyst.",
  },
  {
    title: "Leaks",
    concerns: ["leak"],
    because: "Air or vapour that nobody counted shifts the mixture and the rear sensor.",
  },
];

/** Pure; every code comes back in exactly one place. */
export function cureOrder(codes: readonly FaultCode[]): CureOrder {
  const engine = codes.filter(({ code }) => systemOf(code) === "powertrain");
  const about = (concerns: readonly CodeConcern[]) =>
    engine.filter(({ code }) => concerns.includes(meaningOf(code).concern));
  const first = rules.map(({ concerns, ...step }) => ({ ...step, codes: about(concerns) }));
  return {
    first: first.filter((step) => step.codes.length > 0),
    catalyst: about(["catalyst"]),
    others: about(["speed", "other"]),
    apart: codes.filter(({ code }) => systemOf(code) !== "powertrain"),
  };
}
