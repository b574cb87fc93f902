// A button that opens a list of actions. Escape, a click elsewhere or an action closes it.

import { type Component, createSignal, createUniqueId, Index, type JSX, onCleanup, onMount, Show } from "solid-js";

export interface MenuAction {
  readonly label: string;
  readonly run: () => void;
  readonly disabled?: boolean;
  /** What is in force now. */
  readonly current?: boolean;
}
export type MenuItem = "line" | MenuAction;

export const Menu: Component<{
  readonly name: string;
  /** On the button: an icon, or words. */
  readonly face: JSX.Element;
  /** The list opens above the button. */
  readonly above?: boolean;
  readonly items: readonly MenuItem[];
}> = (props) => {
  let root!: HTMLDivElement;
  let opener!: HTMLButtonElement;
  const listId = createUniqueId();
  const [isOpen, setOpen] = createSignal(false);
  const close = () => {
    setOpen(false);
    opener.focus();
  };
  const elsewhere = (event: PointerEvent) => {
    if (!root.contains(event.target as Node)) setOpen(false);
  };
  document.addEventListener("pointerdown", elsewhere);
  onCleanup(() => document.removeEventListener("pointerdown", elsewhere));

  const step = (event: KeyboardEvent) => {
    const buttons = [...root.querySelectorAll<HTMLButtonElement>("li > button:enabled")];
    const at = buttons.indexOf(document.activeElement as HTMLButtonElement);
    if (event.key === "Escape" && isOpen()) {
      event.stopPropagation();
      close();
    } else if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      event.preventDefault();
      setOpen(true);
      const to = event.key === "ArrowDown" ? at + 1 : at < 0 ? buttons.length - 1 : at - 1;
      [...root.querySelectorAll<HTMLButtonElement>("li > button:enabled")]
        .at(to % Math.max(1, buttons.length))
        ?.focus();
    }
  };
  onMount(() => root.addEventListener("keydown", step));
  return (
    <div class="menu" classList={{ above: props.above ?? false }} ref={root}>
      <button
        ref={opener}
        type="button"
        classList={{ icon: typeof props.face !== "string" }}
        aria-label={props.name}
        aria-expanded={isOpen()}
        aria-controls={listId}
        onClick={() => setOpen(!isOpen())}
      >
        {props.face}
      </button>
      <Show when={isOpen()}>
        <ul id={listId} aria-label={props.name}>
          {/* By place: actions that are made anew while the list is open do not take the focus with them. */}
          <Index each={props.items}>{(item) => <MenuLine item={item()} onRun={close} />}</Index>
        </ul>
      </Show>
    </div>
  );
};

const MenuLine: Component<{ readonly item: MenuItem; readonly onRun: () => void }> = (props) => (
  <Show when={props.item !== "line" && props.item} fallback={<li class="line" aria-hidden="true" />}>
    {(action) => (
      <li>
        <button
          type="button"
          disabled={action().disabled ?? false}
          aria-current={action().current}
          onClick={() => {
            const { run } = action();
            props.onRun();
            run();
          }}
        >
          {action().label}
        </button>
      </li>
    )}
  </Show>
);
