// The stretch that was gone to: what kind of running it was read as, and what it really was where that is wrong.

import { type Component, Show } from "solid-js";
import { type Stretch, stretchKinds } from "../../exhaust/terms/analysis.ts";
import { spanInWords } from "../../exhaust/terms/words.ts";
import { useGround } from "../core/ground.ts";
import { CloseIcon } from "../parts/icons.tsx";
import { Menu, type MenuItem } from "../parts/Menu.tsx";
import { stretchMeanings, stretchWords } from "../words.ts";
import { useStretches } from "./stretches.ts";

export const StretchNote: Component = () => {
  const { shown, readings, view } = useGround();
  const stretches = useStretches();
  return (
    <Show when={stretches.chosen()}>
      {(stretch) => (
        <section class="below-bar" aria-label="Stretch">
          <p aria-live="polite">
            <b>{stretchWords[stretch().kind]}</b>, {spanInWords(stretch())}
            <Show when={stretch().origin === "user"}>
              , <b>corrected by hand</b> (read as {stretchWords[stretch().readAs]})
            </Show>
            <span class="soft"> · {readings.isReadingWhole() ? "reading again …" : stretch().because}</span>
          </p>
          <button type="button" onClick={() => view.show(stretch())}>
            Zoom to it
          </button>
          <Menu name="What it really was" face="It was …" above items={kindsFor(stretch(), stretches.correct)} />
          <button type="button" class="icon plain" aria-label="Let go of the stretch" onClick={shown.clear}>
            <CloseIcon />
          </button>
        </section>
      )}
    </Show>
  );
};

/** Every kind it may have been; the way back where it was corrected. */
function kindsFor(stretch: Stretch, correct: (stretch: Stretch, kind: Stretch["kind"]) => void): readonly MenuItem[] {
  const kinds = stretchKinds.map((kind) => ({
    label: `${stretchWords[kind]}: ${stretchMeanings[kind]}`,
    run: () => correct(stretch, kind),
    current: kind === stretch.kind,
  }));
  if (stretch.origin === "found") return kinds;
  const back = `Back to what was read: ${stretchWords[stretch.readAs]}`;
  return [...kinds, "line", { label: back, run: () => correct(stretch, stretch.readAs) }];
}
