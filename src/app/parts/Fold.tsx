// A part that is folded away: what is in it is made when it is unfolded, for thousands may stand under each other.

import { type Component, createSignal, type JSX, Show } from "solid-js";

export const Fold: Component<{
  /** Shown either way. */
  readonly head: JSX.Element;
  readonly children: JSX.Element;
  readonly isOpen?: boolean;
  readonly onUnfold?: () => void;
  /** Of the element, where somebody reaches into it. */
  readonly ref?: (element: HTMLDetailsElement) => void;
}> = (props) => {
  const [wasOpen, setWasOpen] = createSignal(false);
  let root!: HTMLDetailsElement;
  const toggled = () => {
    if (!root.open) return;
    setWasOpen(true);
    props.onUnfold?.();
  };
  return (
    <details
      ref={(element) => {
        root = element;
        props.ref?.(element);
      }}
      class="channel"
      open={props.isOpen ?? false}
      onToggle={toggled}
    >
      <summary>{props.head}</summary>
      <Show when={wasOpen() || props.isOpen}>
        <div class="channel-fields">{props.children}</div>
      </Show>
    </details>
  );
};
