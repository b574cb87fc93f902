// Whether the page is as narrow as a phone: what does not fit then stands elsewhere.

import { type Accessor, createSignal, onCleanup } from "solid-js";

/** The same width as in styles/bench.css. */
const narrow = "(max-width: 560px)";

export function createNarrow(): Accessor<boolean> {
  const media = matchMedia(narrow);
  const [isNarrow, setNarrow] = createSignal(media.matches);
  const follow = () => setNarrow(media.matches);
  media.addEventListener("change", follow);
  onCleanup(() => media.removeEventListener("change", follow));
  return isNarrow;
}
