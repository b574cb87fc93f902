// Another recording of the job beside the one on the bench: put on its time axis, lined up there, taken off again.

import { type Component, createEffect, createMemo, createSignal, on, Show } from "solid-js";
import type { CaptureRecord } from "../../job/record/job.ts";
import type { CompanionView } from "../core/companions.ts";
import { useGround } from "../core/ground.ts";
import { LiningUp } from "../lining-up/LiningUp.tsx";
import type { Way } from "../lining-up/ways.ts";
import { ProblemNote } from "../parts/ProblemNote.tsx";
import { useSameRun } from "./same-run.ts";

export const OnThisAxis: Component<{ readonly record: CaptureRecord }> = (props) => {
  const { companions, summary } = useGround();
  const sameRun = useSameRun();
  const companion = createMemo(() => companions.list().find(({ captureId }) => captureId === props.record.id));
  return (
    <Show
      when={companion()}
      fallback={
        <button
          type="button"
          class="plain"
          aria-label={`Add ${props.record.fileName} to this time axis`}
          disabled={!summary() || sameRun.adding() !== null}
          onClick={() => void sameRun.add(props.record)}
        >
          {sameRun.adding() === props.record.fileName ? "Lining it up …" : "Add to this time axis"}
        </button>
      }
    >
      {(shown) => <Lying companion={shown()} />}
    </Show>
  );
};

const Lying: Component<{ readonly companion: CompanionView }> = (props) => {
  const { companions, readings } = useGround();
  const sameRun = useSameRun();
  const [ways, setWays] = createSignal<readonly Way[]>([]);
  // A shift changes neither: the events of both are measured once.
  const summary = createMemo(() => props.companion.summary);
  createEffect(
    on([summary, readings.answered], async ([theirs]) => {
      if (theirs) setWays(await sameRun.ways(props.companion));
    }),
  );
  const id = () => props.companion.captureId;
  return (
    <fieldset class="same-run" aria-label={`${props.companion.record.fileName} on this time axis`}>
      <Show when={companions.problem(id())}>{(problem) => <ProblemNote problem={problem()} />}</Show>
      <Show when={props.companion.summary}>
        <LiningUp
          whose="On this time axis"
          shift={props.companion.shift}
          ways={ways()}
          onWay={(way) => void sameRun.lineUp(props.companion, way)}
          onShift={(shift) => sameRun.shift(id(), shift)}
        />
      </Show>
      <button type="button" class="plain" onClick={() => sameRun.remove(id())}>
        Take it off this time axis
      </button>
    </fieldset>
  );
};
