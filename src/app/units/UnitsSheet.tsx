// Which units are shown, everywhere; all is stored in SI.

import { type Component, For } from "solid-js";
import type { UnitChoice } from "../../drawing/shown-units.ts";
import { Dialog } from "../parts/Dialog.tsx";
import { PickField } from "../parts/Fields.tsx";
import { unitChoices, useUnits } from "./choice.ts";

const names: readonly (readonly [keyof UnitChoice, string])[] = [
  ["speed", "Speed and distance"],
  ["temperature", "Temperature"],
  ["pressure", "Pressure"],
  ["airFlow", "Air flow"],
];
const words: Readonly<Record<string, string>> = { degC: "°C", degF: "°F", "km/h": "km/h, km", mph: "mph, miles" };

export const UnitsSheet: Component<{ readonly onClose: () => void }> = (props) => {
  const { units, choose } = useUnits();
  return (
    <Dialog title="Units" narrow onClose={props.onClose}>
      <For each={names}>
        {([kind, label]) => (
          <PickField
            label={label}
            value={units()[kind] as string}
            options={unitChoices[kind].map((unit) => [unit, words[unit] ?? unit] as const)}
            onChange={(unit) => choose({ [kind]: unit } as Partial<UnitChoice>)}
          />
        )}
      </For>
      <p class="soft">Limits, corrections and files stay in the units they are stored in, and say which.</p>
    </Dialog>
  );
};
