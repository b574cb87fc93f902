// What the page has to say right now: a file being read, a problem.

import { type Component, Show } from "solid-js";
import { useGround } from "../core/ground.ts";
import { NewVersion } from "../offline/NewVersion.tsx";
import { ProgressNote } from "../opening/ProgressNote.tsx";
import { ProblemNote } from "../parts/ProblemNote.tsx";
import { useSameRun } from "../same-run/same-run.ts";

export const Notes: Component = () => {
  const { captures, notices, underWay } = useGround();
  const sameRun = useSameRun();
  return (
    <div class="notes">
      <Show when={captures.beingRead()}>{(file) => <ProgressNote file={file()} onCancel={captures.cancel} />}</Show>
      <Show when={underWay.work()}>{(work) => <ProgressNote file={work()} onCancel={underWay.cancel} />}</Show>
      <Show when={sameRun.adding()}>
        {(name) => <p class="same-run-note">Lining up {name()} with what is on the bench …</p>}
      </Show>
      <Show when={sameRun.offer()}>
        {(offer) => (
          <section class="same-run-note" aria-label="Same run?">
            <p>
              {offer().opened.fileName} is open. Is it the same run as {offer().onto.fileName}?
            </p>
            <button type="button" onClick={() => void sameRun.takeOffer()}>
              Same run: add to its time axis
            </button>
            <button type="button" class="plain" onClick={() => sameRun.makeOffer(null)}>
              Keep apart
            </button>
          </section>
        )}
      </Show>
      <NewVersion />
      <Show when={notices.problem()}>
        {(problem) => <ProblemNote problem={problem()} onDismiss={notices.dismiss} />}
      </Show>
    </div>
  );
};
