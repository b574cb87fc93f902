// Two recordings of one job: what each says by itself, side by side, and whether the repair is proved.

import { type Component, createMemo } from "solid-js";
import { compareRecordings } from "../../exhaust/compare.ts";
import { useWorkbench } from "../state/workbench.ts";
import type { Reference } from "./reference.ts";

export const BeforeAfter: Component<{ readonly reference: Reference }> = (props) => {
  const { comparing, desk, captureId } = useWorkbench();
  const place = (id: string | null) => desk.job().captures.findIndex((record) => record.id === id);
  /** The recording that came into the job later is the one after the repair. */
  const isAfter = () => place(captureId()) > place(props.reference.summary.id);
  const sides = createMemo(() => {
    const [mine, theirs] = [comparing.suspect(), props.reference.comparable];
    if (!mine) return null;
    return isAfter() ? { before: theirs, after: mine } : { before: mine, after: theirs };
  });
  const repair = createMemo(() => {
    const both = sides();
    return both ? compareRecordings(both.after, both.before, {}, desk.job().limits ?? {}).repair : null;
  });
  return (
    <section aria-label="Before and after">
      <h2>Before and after</h2>
      <div class="before-after">
        <div>
          <h3>Before: {sides()?.before.name}</h3>
          <p>{sides()?.before.finding?.statement}</p>
        </div>
        <div>
          <h3>After: {sides()?.after.name}</h3>
          <p>{sides()?.after.finding?.statement}</p>
        </div>
      </div>
      <p class={`statement ${repair()?.told === "proved" ? "points-away" : "cannot-say"}`}>{repair()?.says}</p>
    </section>
  );
};
