// Rear activity against air flow: whether the catalyst holds at idle and lets go at cruise, at a glance.

import { type Component, Show } from "solid-js";
import { flowInWords } from "../../exhaust/activity/flow-words.ts";
import type { FlowPoint, FlowPicture as Found } from "../../exhaust/terms/analysis.ts";
import { inPercent, stretchSpan } from "../../exhaust/terms/words.ts";
import { FlowPicture } from "../../plot/pictures/FlowPicture.tsx";
import type { FlowPictureProps } from "../../plot/pictures/picture-types.ts";
import { measured, type Unit } from "../../signal/numbers/reading.ts";
import { shownAs, showUnit } from "../../signal/written/writing.ts";
import { useGround } from "../core/ground.ts";
import { roleWords, stretchWords } from "../words.ts";

type Drawn = FlowPictureProps["points"][number];

const guides = [{ level: 100, label: "as active as the front" }];

export const FlowSection: Component = () => {
  const { readings, shown } = useGround();
  const found = () => {
    const picture = readings.whole()?.flowPicture;
    return picture?.along && picture.points.some((p) => p.amplitudeRatio.value !== null) ? picture : null;
  };
  const go = (id: string) => {
    const point = found()?.points.find((p) => idOf(p) === id);
    if (point) shown.go(id, point);
  };
  return (
    <Show when={found()}>
      {(picture) => (
        <section aria-label="Flow picture">
          <h2>How busy the rear is, along {alongOf(picture()).toLowerCase()}</h2>
          <div class="picture">
            <FlowPicture
              points={picture().points.map((point) => drawn(point, picture().along!.unit))}
              activityTitle="Rear swing over front swing, %"
              flowTitle={`${alongOf(picture())}, ${showUnit(picture().along!.unit)}`}
              guides={guides}
              selected={shown.evidence()?.key ?? null}
              onSelect={go}
            />
          </div>
          <p class="why">{flowInWords(picture())}</p>
        </section>
      )}
    </Show>
  );
};

const alongOf = ({ along }: Found) => roleWords[along!.role];
const idOf = (point: FlowPoint) => `flow-${point.from}`;

function drawn(point: FlowPoint, unit: string): Drawn {
  const { kind, at, amplitudeRatio } = point;
  // The axis carries numbers as people chose to read them.
  const { unit: shown, times, plus } = shownAs(unit);
  const along = at * times + plus;
  const known = kind === "idle" || kind === "cruise" || kind === "load";
  return {
    id: idOf(point),
    label: `${stretchWords[kind]}, ${stretchSpan(point)}`,
    flow: measured(along, [along, along], shown as Unit),
    activity: inPercent(amplitudeRatio),
    stretch: known ? kind : "other",
  };
}
