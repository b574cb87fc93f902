// Two recordings of one job: what each says by itself, side by side, and whether the repair is proved.

import { type Component, Show } from "solid-js";
import { proofInWords, proofOfJob } from "../../job/proof/proof.ts";
import { useGround } from "../core/ground.ts";
import { useComparing } from "./comparing.ts";

export const BeforeAfter: Component = () => {
  const comparing = useComparing();
  const { desk } = useGround();
  const proof = () => proofOfJob(desk.job(), comparing.beforeAfter()?.comparison ?? null);
  return (
    <Show when={comparing.beforeAfter()}>
      {(both) => (
        <section aria-label="Before and after">
          <h2>Before and after</h2>
          <div class="before-after">
            <div>
              <h3>Before: {both().before.name}</h3>
              <p>{both().before.finding?.statement}</p>
            </div>
            <div>
              <h3>After: {both().after.name}</h3>
              <p>{both().after.finding?.statement}</p>
            </div>
          </div>
          <p class={`statement ${both().comparison.repair.told === "proved" ? "points-away" : "cannot-say"}`}>
            {both().comparison.repair.says}
          </p>
          <p>{proofInWords(proof())}</p>
        </section>
      )}
    </Show>
  );
};
