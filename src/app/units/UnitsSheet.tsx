// Which units, decimal mark and dates are shown, everywhere; all is stored in SI.

import { type Component, For } from "solid-js";
import type { Writing } from "../../signal/written/writing.ts";
import { useGround } from "../core/ground.ts";
import { writingChoices } from "../core/writing.ts";
import { Dialog } from "../parts/Dialog.tsx";
import { PickField } from "../parts/Fields.tsx";

const names: readonly (readonly [keyof Writing, string])[] = [
  ["speed", "Speed and distance"],
  ["temperature", "Temperature"],
  ["pressure", "Pressure"],
  ["airFlow", "Air flow"],
  ["decimal", "Decimal mark"],
  ["dates", "Dates, as the 4th of May"],
];
const words: Readonly<Record<string, string>> = {
  degC: "°C",
  degF: "°F",
  "km/h": "km/h, km",
  mph: "mph, miles",
  ".": "1.5",
  ",": "1,5",
};

export const UnitsSheet: Component<{ readonly onClose: () => void }> = (props) => {
  const { writing, chooseWriting } = useGround();
  return (
    <Dialog title="Units, numbers and dates" narrow onClose={props.onClose}>
      <For each={names}>
        {([kind, label]) => (
          <PickField
            label={label}
            value={writing()[kind] as string}
            options={writingChoices[kind].map((choice) => [choice, words[choice] ?? choice] as const)}
            onChange={(choice) => chooseWriting({ [kind]: choice } as Partial<Writing>)}
          />
        )}
      </For>
      <p class="soft">
        Numbers may be typed with a point or a comma. Limits, corrections and files stay in the units they are stored
        in, and say which.
      </p>
    </Dialog>
  );
};
