// Keeping the recording on the bench as known-good: what it is, under what conditions, who says so and why.

import { type Component, createSignal, For } from "solid-js";
import type { Comparable } from "../../exhaust/comparing/comparison.ts";
import { inWords } from "../../exhaust/terms/words.ts";
import { newId } from "../../job/record/new-id.ts";
import type { Shelf } from "../../job/shelf/shelf.ts";
import { type ShelfWords, shelfVersion } from "../../job/shelf/shelf-trace.ts";
import { type Outcome, settle } from "../../problem.ts";
import { useComparing } from "../comparing/comparing.ts";
import { type Ground, useGround } from "../core/ground.ts";
import { measuredOn } from "../core/measured-on.ts";
import { EngineSizeField, isNoSize } from "../parts/EngineSizeField.tsx";
import { partOf } from "./part.ts";

const fields: readonly (readonly [keyof ShelfWords, string, string])[] = [
  ["name", "Name", "Hatchback 1.6, new catalyst"],
  ["vehicleFamily", "Vehicle family", "hatchback"],
  ["engineSize", "Engine size", ""],
  ["sensorKind", "Sensors", "zirconia, narrow-band, heated"],
  ["catalystPosition", "Catalyst", "close to the engine, one brick"],
  ["conditions", "Conditions, beside what is measured", "warm, dry road"],
  ["saidBy", "Who says it is good", "workshop"],
  ["because", "Why", "new catalyst, no codes since"],
];

export const KeepForm: Component<{
  readonly onDone: (outcome: Outcome<null>) => void;
  readonly onCancel: () => void;
}> = (props) => {
  const ground = useGround();
  const { shelf } = useComparing();
  const { desk, bench, span } = ground;
  const [words, setWords] = createSignal<ShelfWords>({
    name: bench.record()?.fileName.replace(/[.]\w{1,5}([.]gz)?$/, "") ?? "",
    vehicleFamily: desk.job().vehicle.description,
    engineSize: "",
    sensorKind: "zirconia, narrow-band",
    catalystPosition: "",
    conditions: "",
    saidBy: "",
    because: "",
  });
  const [isBusy, setBusy] = createSignal(false);
  const isReady = () =>
    words().name.trim() !== "" &&
    words().saidBy.trim() !== "" &&
    words().because.trim() !== "" &&
    !isNoSize(words().engineSize);
  const keep = async (event: SubmitEvent) => {
    event.preventDefault();
    setBusy(true);
    const outcome = await keepAsKnownGood(words(), ground, shelf);
    setBusy(false);
    props.onDone(outcome);
  };
  return (
    <form class="keep-form" onSubmit={(event) => void keep(event)}>
      <p>
        {span() ? "The chosen span" : "The whole recording"} goes on the shelf of this browser. What is measured on it
        is kept with it.
      </p>
      <WordFields words={words()} onChange={(part) => setWords({ ...words(), ...part })} />
      <div class="row">
        <button type="submit" class="main" disabled={!isReady() || isBusy()}>
          {isBusy() ? "Keeping …" : "Keep as known-good"}
        </button>
        <button type="button" onClick={() => props.onCancel()}>
          Cancel
        </button>
      </div>
    </form>
  );
};

const WordFields: Component<{
  readonly words: ShelfWords;
  readonly onChange: (part: Partial<ShelfWords>) => void;
}> = (props) => (
  <For each={fields}>
    {([key, label, example]) =>
      key === "engineSize" ? (
        <EngineSizeField
          value={props.words.engineSize}
          hint="In litres or cm³."
          onChange={(engineSize) => props.onChange({ engineSize })}
        />
      ) : (
        <label class="field">
          <span>{label}</span>
          <input
            value={props.words[key]}
            placeholder={example}
            maxLength={500}
            required={key === "name" || key === "saidBy" || key === "because"}
            onInput={(event) => props.onChange({ [key]: event.currentTarget.value })}
          />
        </label>
      )
    }
  </For>
);

/** The samples are in the worker's store already; the index is written last, when they are known to be kept. */
async function keepAsKnownGood(words: ShelfWords, ground: Ground, shelf: Shelf): Promise<Outcome<null>> {
  const { service, bench, span, summary } = ground;
  const [record, capture] = [bench.record(), summary()];
  if (!record || !capture) return { ok: true, value: null };
  const problem = await service.kept(record.id);
  if (problem) return { ok: false, problem };
  const measured = await settle(() => measuredOn(capture, ground, record));
  if (!measured.ok) return measured;
  const comparable = partOf(measured.value, span());
  return shelf.keep({
    ...words,
    version: shelfVersion,
    id: newId(),
    keptAt: new Date().toISOString(),
    isSimulated: record.isSimulated ?? false,
    conditions: [conditionsOf(comparable), words.conditions].filter(Boolean).join(" "),
    captureId: record.id,
    fileName: record.fileName,
    choices: record.choices,
    bank: record.bench.bank,
    corrections: capture.take.corrections,
    span: span(),
    comparable: { ...comparable, name: words.name },
  });
}

/** Flow, speed and temperature as measured. */
function conditionsOf({ liftOffs, coolant }: Comparable): string {
  const range = (values: readonly (number | null)[], unit: string) => {
    const known = values.filter((value) => value !== null).map(Math.round);
    if (known.length === 0) return [];
    const [low, high] = [Math.min(...known), Math.max(...known)];
    return [`${low === high ? low : `${low} to ${high}`} ${unit}`];
  };
  const flow = range(
    liftOffs.map(({ airFlow }) => airFlow),
    "g/s",
  );
  const speed = range(
    liftOffs.map(({ engineSpeed }) => engineSpeed),
    "rpm",
  );
  const count = liftOffs.length === 1 ? "One lift-off" : `${liftOffs.length} lift-offs`;
  const parts = [count, ...flow, ...speed, ...(coolant ? [`coolant ${inWords(coolant)}`] : [])];
  return `${parts.join(", ")}.`;
}
