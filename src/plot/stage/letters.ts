// How large the lanes' letters are drawn, times their usual size: chosen once for the page, followed by all that draws.

import { createSignal } from "solid-js";

const [letters, setLetters] = createSignal(1);

export { setLetters };

/** @param usual CSS pixels. Reads as a signal. */
export const letterSize = (usual: number): number => Math.round(usual * letters());
