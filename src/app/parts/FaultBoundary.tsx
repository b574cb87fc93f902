// A part of the page that may fail by itself: a fault of ours shows in its place, with the way back, and leaves the rest alive.

import { type Component, ErrorBoundary, type JSX } from "solid-js";
import { faultOf } from "./fault.ts";
import { ProblemNote } from "./ProblemNote.tsx";

export const FaultBoundary: Component<{
  /** As the sentence needs it: "the lanes", "this sheet". */
  readonly name: string;
  /** A way out beside trying again, such as closing the sheet. */
  readonly onLeave?: () => void;
  readonly children: JSX.Element;
}> = (props) => (
  <ErrorBoundary
    fallback={(error, reset) => (
      <div class="fault">
        <ProblemNote problem={faultOf(error, props.name)} {...(props.onLeave ? { onDismiss: props.onLeave } : {})}>
          <button type="button" onClick={reset}>
            Try again
          </button>
        </ProblemNote>
      </div>
    )}
  >
    {props.children}
  </ErrorBoundary>
);
