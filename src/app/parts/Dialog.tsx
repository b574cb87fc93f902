// A sheet over the bench. The browser keeps the keyboard inside it, Escape closes it, focus goes back where it was.

import { type Component, createUniqueId, type JSX, onCleanup, onMount, Show } from "solid-js";
import { CloseIcon } from "./icons.tsx";

/** What scrolls must take the keyboard (WCAG 2.2, 2.1.1). */
const reachByKeyboard = (content: HTMLElement) => {
  content.tabIndex = 0;
};

export const Dialog: Component<{
  readonly title: string;
  readonly onClose: () => void;
  /** Asked before Escape or the cross closes it; where it says no the sheet stays, and says why by itself. */
  readonly mayClose?: () => boolean;
  readonly narrow?: boolean;
  /** As wide as the window. */
  readonly wide?: boolean;
  readonly children: JSX.Element;
  /** Buttons at the foot. */
  readonly foot?: JSX.Element;
}> = (props) => {
  let sheet!: HTMLDialogElement;
  const titleId = createUniqueId();
  const before = document.activeElement;
  onMount(() => sheet.showModal());
  const mayClose = () => props.mayClose?.() ?? true;
  /** A browser closes at a second Escape whatever was said to the first. */
  const closed = () => (mayClose() ? props.onClose() : sheet.showModal());
  onCleanup(() => {
    if (before instanceof HTMLElement && before.isConnected) before.focus();
  });
  return (
    <dialog
      ref={sheet}
      class="sheet"
      classList={{ narrow: props.narrow ?? false, wide: props.wide ?? false }}
      aria-labelledby={titleId}
      onCancel={(event) => !mayClose() && event.preventDefault()}
      onClose={closed}
    >
      <header>
        <h2 id={titleId}>{props.title}</h2>
        <button type="button" class="icon plain" aria-label="Close" onClick={() => mayClose() && sheet.close()}>
          <CloseIcon />
        </button>
      </header>
      <div class="content" ref={reachByKeyboard}>
        {props.children}
      </div>
      <Show when={props.foot}>
        <footer>{props.foot}</footer>
      </Show>
    </dialog>
  );
};
