// Keeps the whole program in the browser, and offers a newer version without ever forcing it.

import { type Accessor, createSignal, onCleanup } from "solid-js";
import { subject } from "../core/context.ts";

/** What is to be said of a newer version: nothing, that it waits, or that other tabs stand in its way. */
export type Newer = "none" | "waits" | "other-tabs";

export interface Offline {
  /** All parts lie in the browser: the program starts and works without its server. */
  readonly isKept: Accessor<boolean>;
  readonly newer: Accessor<Newer>;
  /** Saves, changes over to the newer version and loads the page anew; says so where other tabs are open. */
  takeNewer(): Promise<void>;
  /** Leaves it for the next start. */
  later(): void;
}

export const { Context: OfflineContext, use: useOffline } = subject<Offline>("offline");

/** What of the browser is needed; tests give their own. */
export interface Platform {
  /** Undefined where the page is not served safely, or the browser forbids it. */
  readonly serviceWorker: ServiceWorkerContainer | undefined;
  /** How many tabs show this program, this one included. */
  countTabs(): Promise<number>;
  reload(): void;
}

/** @param save tells whether nothing waits to be saved any more; where something does, the page stays as it is. */
export function createOffline(save: () => Promise<boolean>, platform: Platform): Offline {
  const [isKept, setKept] = createSignal(false);
  const [newer, setNewer] = createSignal<Newer>("none");
  const container = platform.serviceWorker;
  let registration: ServiceWorkerRegistration | null = null;
  let isTaken = false;

  const look = () => {
    if (!registration) return;
    setKept(registration.active !== null);
    if (registration.waiting && registration.active) setNewer("waits");
    registration.installing?.addEventListener("statechange", look);
  };
  const change = () => {
    if (isTaken) platform.reload();
  };
  const start = async () => {
    if (!container) return;
    try {
      registration = await container.register("/sw.js");
    } catch {
      return; // no server, or forbidden: the page works as it is
    }
    registration.addEventListener("updatefound", look);
    look();
  };
  container?.addEventListener("controllerchange", change);
  onCleanup(() => {
    container?.removeEventListener("controllerchange", change);
    registration?.removeEventListener("updatefound", look);
  });
  void start();
  return {
    isKept,
    newer,
    async takeNewer() {
      if ((await platform.countTabs()) > 1) return void setNewer("other-tabs");
      if (!(await save())) return;
      isTaken = true;
      registration?.waiting?.postMessage({ type: "SKIP_WAITING" });
    },
    later: () => setNewer("none"),
  };
}

const tabLock = "tracewright-tab";

/** The browser itself. Each tab holds a shared lock for as long as it lives, so that tabs can be counted. */
export function browserPlatform(): Platform {
  const { locks, serviceWorker } = navigator as Partial<Navigator>;
  void locks?.request(tabLock, { mode: "shared" }, () => new Promise(() => {}));
  return {
    serviceWorker: import.meta.env.PROD ? serviceWorker : undefined,
    async countTabs() {
      const held = (await locks?.query())?.held ?? [];
      return Math.max(1, held.filter(({ name }) => name === tabLock).length);
    },
    reload: () => location.reload(),
  };
}
