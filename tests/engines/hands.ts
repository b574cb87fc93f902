// Finds things on the page as a person does, by what they are called, and presses them.

import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import type { Driven, Point } from "./engine.ts";

/** How long anything may take to come, ms. */
const patience = 300_000;

const selectors = {
  button: "button",
  textbox: "input:not([type]), input[type=text], textarea",
  tab: "[role=tab]",
  slider: "[role=slider]",
  status: "[role=status]",
  heading: "h1, h2, h3",
  group: "[role=group], fieldset",
  image: "[role=img], img",
  text: "p, span, strong, dd, li, output, div.verdict",
} as const;
export type Kind = keyof typeof selectors;
/** These are found by what they say, not by what they are called. */
const saying: readonly Kind[] = ["group", "text", "heading", "status"];

interface Found {
  /** As it is called. */
  readonly name: string;
  readonly at: Point;
}

export class Hands {
  readonly on: Driven;

  constructor(on: Driven) {
    this.on = on;
  }

  async visit(address: string): Promise<void> {
    await this.on.goto(address);
    await this.on.run(listen);
  }

  async reload(): Promise<void> {
    await this.on.reload();
    await this.on.run(listen);
  }

  /** What a quiet page does not say, since it was asked last. */
  noise(): Promise<readonly string[]> {
    return this.on.run(() => (globalThis as unknown as { noise: string[] }).noise.splice(0));
  }

  /** All of a kind that are seen, or for a status merely there. */
  all(kind: Kind, name: RegExp): Promise<readonly Found[]> {
    const how = { isSaying: saying.includes(kind), isHidden: kind === "status" };
    return this.on.run(findAll, selectors[kind], name.source, name.flags, how);
  }

  async see(kind: Kind, name: RegExp, count = 1): Promise<readonly Found[]> {
    return until(`${kind} ${name}`, async () => {
      const found = await this.all(kind, name);
      return found.length >= count ? found : null;
    });
  }

  /** Once it stands still: what is drawn anew under the pointer would take the press elsewhere. */
  async press(kind: Kind, name: RegExp): Promise<void> {
    const at = await until(`${kind} ${name}, standing still`, async () => {
      const [first] = await this.all(kind, name);
      await new Promise((resolve) => setTimeout(resolve, 200));
      const [second] = await this.all(kind, name);
      return first && second && Math.hypot(first.at.x - second.at.x, first.at.y - second.at.y) < 1 ? second.at : null;
    });
    await this.on.press(at);
  }

  /** Puts a text in the place of what a field holds. */
  async fill(name: RegExp, text: string): Promise<void> {
    await this.press("textbox", name);
    await this.on.run(() => (document.activeElement as HTMLInputElement).select());
    await this.on.type(`${text}\n`);
  }

  async dropFile(name: string, bytes: Uint8Array): Promise<void> {
    await this.on.run(fall, name, Buffer.from(bytes).toString("base64"));
  }

  /** What the browser saves while something is done. @param ending  of its name. */
  async saved(ending: RegExp, act: () => Promise<void>): Promise<Uint8Array> {
    const before = new Set(filesBelow(this.on.downloads));
    await act();
    return until(`a saved file ${ending}`, async () => {
      const file = filesBelow(this.on.downloads).find((path) => !before.has(path) && ending.test(path));
      if (!file) return null;
      const size = statSync(file).size;
      await new Promise((resolve) => setTimeout(resolve, 500));
      return size > 0 && statSync(file).size === size ? new Uint8Array(readFileSync(file)) : null;
    });
  }
}

/** @throws Error naming what did not come. */
export async function until<T>(what: string, look: () => Promise<T | null>): Promise<T> {
  const end = Date.now() + patience;
  for (;;) {
    const found = await look();
    if (found !== null) return found;
    if (Date.now() > end) throw new Error(`did not come: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 250));
  }
}

function filesBelow(folder: string): readonly string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isFile()) return [path];
    return entry.isDirectory() && !/^(profile|\..*)$/.test(entry.name) ? filesBelow(path) : [];
  });
}

/** In the page: notes what goes wrong from now on. */
function listen(): void {
  const noise: string[] = [];
  Object.assign(globalThis, { noise });
  addEventListener("error", ({ message }) => noise.push(`error: ${message}`));
  addEventListener("unhandledrejection", ({ reason }) => noise.push(`rejected: ${reason}`));
  for (const kind of ["error", "warn"] as const) {
    Object.assign(globalThis.console, { [kind]: (...words: unknown[]) => noise.push(`${kind}: ${words.join(" ")}`) });
  }
}

/** In the page. */
function findAll(
  selector: string,
  source: string,
  flags: string,
  { isSaying, isHidden }: { isSaying: boolean; isHidden: boolean },
): Found[] {
  const wanted = new RegExp(source, flags);
  const nameOf = (element: Element) => {
    const by = element.getAttribute("aria-labelledby")?.split(" ") ?? [];
    const labelled = by.map((id) => document.getElementById(id)?.textContent ?? "");
    const labels = [...((element as HTMLInputElement).labels ?? [])].map((label) => label.textContent);
    if (isSaying) return (element.textContent ?? "").replace(/\s+/g, " ").trim();
    const called = ["aria-label", "alt"].map((one) => element.getAttribute(one)).find((one) => one !== null);
    const name = called ?? [...labelled, ...labels].join(" ");
    return (name || element.textContent || "").replace(/\s+/g, " ").trim();
  };
  const dialog = document.querySelector("dialog[open], [role=dialog]");
  const isBehind = (element: Element) => dialog !== null && !dialog.contains(element);
  const found = [...document.querySelectorAll(selector)].filter(
    (element) => wanted.test(nameOf(element)) && (isHidden || (element.checkVisibility() && !isBehind(element))),
  );
  return found.map((element, i) => {
    if (i === 0 && !isHidden) element.scrollIntoView({ block: "nearest" });
    const { x, y, width, height } = element.getBoundingClientRect();
    return { name: nameOf(element), at: { x: x + width / 2, y: y + height / 2 } };
  });
}

/** In the page: as the desktop would let a file fall on it. */
function fall(name: string, base64: string): void {
  const data = new DataTransfer();
  data.items.add(new File([Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))], name));
  for (const type of ["dragenter", "dragover", "drop"]) {
    document.body.dispatchEvent(new DragEvent(type, { dataTransfer: data, bubbles: true, cancelable: true }));
  }
}
