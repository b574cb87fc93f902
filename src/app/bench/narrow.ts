// How wide the page is: what does not fit stands elsewhere.

import { type Accessor, createSignal, onCleanup } from "solid-js";

/** As narrow as a phone. The same width as in styles/bench.css. */
export const createNarrow = () => createMedia("(max-width: 560px)");

/** The panel stands below the lanes. The same width as in styles/bench.css. */
export const createStacked = () => createMedia("(max-width: 820px)");

function createMedia(query: string): Accessor<boolean> {
  const media = matchMedia(query);
  const [matches, setMatches] = createSignal(media.matches);
  const follow = () => setMatches(media.matches);
  media.addEventListener("change", follow);
  onCleanup(() => media.removeEventListener("change", follow));
  return matches;
}
