// What is known before anything is recorded.

import { type Component, For, Show } from "solid-js";
import { changeJob, changeVehicle } from "../../job/edits/make.ts";
import { changeIntake, intakeOf } from "../../job/edits/paper-edits.ts";
import { type Intake, lampStates, lampWarning, lampWords } from "../../job/intake/intake.ts";
import { vinTold } from "../../job/intake/vin.ts";
import type { Vehicle } from "../../job/record/job.ts";
import { useGround } from "../core/ground.ts";
import { EngineSizeField } from "../parts/EngineSizeField.tsx";
import { PickField, TextField } from "../parts/Fields.tsx";

type TextOf = Exclude<keyof Intake, "lamp" | "banks">;

const story: readonly (readonly [TextOf, string, rows: number])[] = [
  ["complaint", "Complaint, in the customer's own words", 3],
  ["since", "Since when", 0],
  ["recentWork", "Recent work on the car", 2],
  ["fittedParts", "Sensors or catalysts fitted before", 2],
  ["fuelAndOil", "Fuel, oil and coolant use", 2],
  ["authority", "What the customer agreed to", 2],
  ["cap", "Up to which amount", 0],
];
const car: readonly (readonly [keyof Vehicle, string])[] = [
  ["description", "Make and model"],
  ["odometer", "Distance driven, with its unit"],
  ["plate", "Number plate"],
  ["customer", "Customer"],
];

const bankChoices: readonly (readonly [Intake["banks"], string])[] = [
  ["", "not said"],
  ["1", "one"],
  ["2", "two"],
];

export const IntakePage: Component = () => {
  const { desk } = useGround();
  const intake = () => intakeOf(desk.job());
  const vehicle = () => desk.job().vehicle;
  const say = (change: Partial<Intake>) => desk.change((job, at) => changeIntake(job, at, change));
  const sayCar = (change: Partial<Vehicle>) => desk.change((job, at) => changeVehicle(job, at, change));
  const vin = () => vinTold(vehicle().vin);
  return (
    <div class="paper-columns">
      <section aria-label="Complaint">
        <h3>The complaint</h3>
        <PickField
          label="Warning lamp"
          value={intake().lamp}
          options={lampStates.map((state) => [state, lampWords[state]] as const)}
          onChange={(lamp) => say({ lamp })}
        />
        <Show when={lampWarning(intake().lamp)}>{(warning) => <p class="warning">{warning()}</p>}</Show>
        <For each={story}>
          {([key, label, rows]) => (
            <TextField label={label} value={intake()[key]} rows={rows} onChange={(value) => say({ [key]: value })} />
          )}
        </For>
      </section>
      <section aria-label="Vehicle">
        <h3>The car</h3>
        <TextField
          label="Job name"
          value={desk.job().name}
          onChange={(name) => name.trim() && desk.change((job, at) => changeJob(job, at, { name: name.trim() }))}
        />
        <For each={car}>
          {([key, label]) => (
            <TextField label={label} value={vehicle()[key]} onChange={(value) => sayCar({ [key]: value })} />
          )}
        </For>
        <TextField
          label="VIN"
          value={vehicle().vin}
          hint={saysOf(vin())}
          hintIsBad={["does-not-fit", "wrong-letter"].includes(vin().told)}
          onChange={(value) => sayCar({ vin: value })}
        />
        <EngineSizeField value={intake().engineSize} hint={sizeHint} onChange={(engineSize) => say({ engineSize })} />
        <PickField
          label="Banks of the exhaust"
          value={intake().banks}
          options={bankChoices}
          onChange={(banks) => say({ banks })}
        />
        <TextField label="Technician" value={intake().technician} onChange={(technician) => say({ technician })} />
        <TextField label="Date" type="date" value={intake().date} onChange={(date) => say({ date })} />
        <p class="soft">Number plate, VIN and customer stay off every picture and sheet unless you tick them there.</p>
      </section>
    </div>
  );
};

const sizeHint = "In litres or cm³: the oxygen store is told for each litre, too.";

const saysOf = (told: ReturnType<typeof vinTold>): string | undefined => ("says" in told ? told.says : undefined);
