// Waiting for a signal to come true.

import { type Accessor, createEffect, createRoot } from "solid-js";

/** Ends when it is so, or when it is given up. */
export function until(isSo: Accessor<boolean>, signal: AbortSignal): Promise<void> {
  if (signal.aborted) return Promise.resolve();
  return new Promise((resolve) => {
    createRoot((dispose) => {
      const end = () => {
        signal.removeEventListener("abort", end);
        dispose();
        resolve();
      };
      signal.addEventListener("abort", end);
      createEffect(() => isSo() && end());
    });
  });
}
