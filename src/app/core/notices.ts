// What the page has to say: problems that stay until dismissed, and short words for the live region.

import { type Accessor, createSignal } from "solid-js";
import type { Problem } from "../../problem.ts";

export interface Notices {
  readonly problem: Accessor<Problem | null>;
  /** Shows a problem in place of the one before. */
  show(problem: Problem): void;
  dismiss(): void;
  /** The last thing said to screen readers and in the status line. */
  readonly said: Accessor<string>;
  say(text: string): void;
}

export function createNotices(): Notices {
  const [problem, setProblem] = createSignal<Problem | null>(null);
  const [said, say] = createSignal("");
  return { problem, show: setProblem, dismiss: () => setProblem(null), said, say };
}
