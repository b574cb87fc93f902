// A button that opens a list of actions below it. Escape, a click elsewhere or an action closes it.

import { type Component, createSignal, createUniqueId, For, type JSX, onCleanup, onMount, Show } from "solid-js";

export type MenuItem = "line" | { readonly label: string; readonly run: () => void; readonly disabled?: boolean };

export const Menu: Component<{
  readonly name: string;
  readonly icon: JSX.Element;
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
    <div class="menu" ref={root}>
      <button
        ref={opener}
        type="button"
        class="icon"
        aria-label={props.name}
        aria-expanded={isOpen()}
        aria-controls={listId}
        onClick={() => setOpen(!isOpen())}
      >
        {props.icon}
      </button>
      <Show when={isOpen()}>
        <ul id={listId} aria-label={props.name}>
          <For each={props.items}>
            {(item) =>
              item === "line" ? (
                <li class="line" aria-hidden="true" />
              ) : (
                <li>
                  <button
                    type="button"
                    disabled={item.disabled ?? false}
                    onClick={() => {
                      close();
                      item.run();
                    }}
                  >
                    {item.label}
                  </button>
                </li>
              )
            }
          </For>
        </ul>
      </Show>
    </div>
  );
};
