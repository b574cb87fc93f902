// What went wrong, where, and what to do about it: the only place where a Problem is shown.

import { type Component, type JSX, Show } from "solid-js";
import type { Problem } from "../../problem.ts";

export const ProblemNote: Component<{
  readonly problem: Problem;
  readonly onDismiss?: () => void;
  /** What helps, as buttons. */
  readonly children?: JSX.Element;
}> = (props) => (
  <section class="problem-note" role="alert" aria-label="Problem">
    <p class="what">{props.problem.what}</p>
    <Show when={props.problem.where}>{(where) => <p class="where">{where()}</p>}</Show>
    <p class="remedy">{props.problem.remedy}</p>
    <div class="buttons">
      {props.children}
      <Show when={props.onDismiss}>
        <button type="button" onClick={() => props.onDismiss?.()}>
          Dismiss
        </button>
      </Show>
    </div>
  </section>
);
