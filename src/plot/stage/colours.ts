// The page's colour tokens for a canvas, which cannot use CSS variables; read again when the theme changes.

import { type Accessor, createSignal, onCleanup } from "solid-js";

const tokens = ["sheet", "ink", "soft", "hair", "grid", "front", "rear", "other", "accent", "open"] as const;
export type Token = (typeof tokens)[number];
export type Colours = Readonly<Record<Token, string>>;

/** The tokens in force at an element. */
function readColours(element: Element): Colours {
  const style = getComputedStyle(element);
  const read = (token: Token) => style.getPropertyValue(`--${token}`).trim() || style.color;
  return Object.fromEntries(tokens.map((token) => [token, read(token)])) as Record<Token, string>;
}

/** The page's tokens, followed as the theme changes, be it set by the system or by an attribute or class of the root. */
export function createColours(): Accessor<Colours> {
  const root = document.documentElement;
  const [colours, setColours] = createSignal(readColours(root));
  const renew = () => setColours(readColours(root));
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const forced = matchMedia("(forced-colors: active)");
  const watcher = new MutationObserver(renew);
  dark.addEventListener("change", renew);
  forced.addEventListener("change", renew);
  watcher.observe(root, { attributes: true });
  // A canvas draws with what fonts it has: once more when the page's own have come.
  document.fonts.addEventListener("loadingdone", renew);
  onCleanup(() => {
    document.fonts.removeEventListener("loadingdone", renew);
    dark.removeEventListener("change", renew);
    forced.removeEventListener("change", renew);
    watcher.disconnect();
  });
  return colours;
}

/** Further traces of a lane, when neither front nor rear, tell each other apart by these. */
const others: readonly Token[] = ["other", "accent", "open", "ink"];

/** The token a trace is drawn in; `nth` counts the lane's other traces. */
export function traceToken(look: "front" | "rear" | "other", nth: number): Token {
  return look === "other" ? others[nth % others.length]! : look;
}
