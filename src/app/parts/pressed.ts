// Whether a finger or a button is down anywhere on the page: nothing should move away under it.

import { type Accessor, createMemo, createSignal, onCleanup } from "solid-js";

/** True once `isWanted` is and no press is under way; from then on as long as it is wanted. */
export function createUnhurried(isWanted: () => boolean): Accessor<boolean> {
  const [isPressed, setPressed] = createSignal(false);
  const listen = (name: "pointerdown" | "pointerup" | "pointercancel", pressed: boolean) => {
    const heard = () => setPressed(pressed);
    addEventListener(name, heard, true);
    onCleanup(() => removeEventListener(name, heard, true));
  };
  listen("pointerdown", true);
  listen("pointerup", false);
  listen("pointercancel", false);
  return createMemo<boolean>((before) => isWanted() && (before || !isPressed()), false);
}
