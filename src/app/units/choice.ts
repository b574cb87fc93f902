// The units chosen once on this machine, kept in the browser.

import { type Accessor, createSignal } from "solid-js";
import { chooseUnits, siUnits, type UnitChoice } from "../../drawing/shown-units.ts";
import { subject } from "../core/context.ts";

export interface UnitsState {
  /** A new object with every change: what shows numbers is drawn anew by it. */
  readonly units: Accessor<UnitChoice>;
  choose(part: Partial<UnitChoice>): void;
}

export const { Context: UnitsContext, use: useUnits } = subject<UnitsState>("Units");

const place = "tracewright-units";

export const unitChoices = {
  speed: ["km/h", "mph"],
  temperature: ["degC", "degF"],
  pressure: ["kPa", "inHg", "psi"],
  airFlow: ["g/s", "lb/min"],
} as const;

export function createUnits(): UnitsState {
  const [units, setUnits] = createSignal(keptUnits());
  chooseUnits(units());
  return {
    units,
    choose(part) {
      const next = { ...units(), ...part };
      chooseUnits(next);
      setUnits(next);
      try {
        localStorage.setItem(place, JSON.stringify(next));
      } catch {
        // storage is denied: the choice lasts as long as the page
      }
    },
  };
}

/** Only what this program offers; anything else is as delivered. */
function keptUnits(): UnitChoice {
  try {
    const kept = JSON.parse(localStorage.getItem(place) ?? "{}") as Record<string, unknown>;
    const names = Object.keys(unitChoices) as (keyof UnitChoice)[];
    const known = names.filter((name) => (unitChoices[name] as readonly unknown[]).includes(kept[name]));
    return { ...siUnits, ...Object.fromEntries(known.map((name) => [name, kept[name]])) };
  } catch {
    return siUnits;
  }
}
