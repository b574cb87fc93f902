// What cannot be taken back is asked twice: the second touch does it, beside it stands the way back.

import { type Component, createSignal, type JSX, Show } from "solid-js";

export const SureButton: Component<{
  /** On the button before it was touched, and what it says to a screen reader where that is not enough. */
  readonly ask: string;
  readonly label?: string;
  /** On the button that does it. */
  readonly sure: string;
  readonly onSure: () => void;
  /** What stands before it until it was touched. */
  readonly children?: JSX.Element;
}> = (props) => {
  const [isSure, setSure] = createSignal(false);
  return (
    <Show
      when={isSure()}
      fallback={
        <>
          {props.children}
          <button type="button" class="plain" aria-label={props.label} onClick={() => setSure(true)}>
            {props.ask}
          </button>
        </>
      }
    >
      <button type="button" class="danger" onClick={() => props.onSure()}>
        {props.sure}
      </button>
      <button type="button" onClick={() => setSure(false)}>
        Keep it
      </button>
    </Show>
  );
};
