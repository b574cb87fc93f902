// WebKitGTK's MiniBrowser by WebDriver (W3C), spoken to its WebKitWebDriver; on a screen of its own where none is there.

import { type ChildProcess, spawn } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Driven, Engine, Point } from "./engine.ts";

const driver = "/usr/bin/WebKitWebDriver";
const screen = "/usr/bin/Xvfb";

function findBrowser(): string | undefined {
  const libraries = ["/usr/lib/x86_64-linux-gnu", "/usr/lib/aarch64-linux-gnu", "/usr/lib", "/usr/libexec"];
  const folders = libraries.filter(existsSync).flatMap((one) =>
    readdirSync(one)
      .filter((name) => /^webkit(2?gtk)-[\d.]+$/.test(name))
      .map((name) => join(one, name, "MiniBrowser")),
  );
  return folders.find(existsSync);
}

function missing(): string | null {
  if (!existsSync(driver) || !findBrowser())
    return "WebKitGTK's driver and MiniBrowser are not installed (Debian: webkit2gtk-driver)";
  if (!process.env.DISPLAY && !existsSync(screen)) return "there is no screen, and none can be made (Debian: xvfb)";
  return null;
}

/** Debian's cannot write files of a page (it has no synchronous handles), whatever is switched on. */
export const webkit: Engine = { name: "WebKitGTK's MiniBrowser", keeps: false, missing, start: startWebkit };

async function startWebkit(): Promise<Driven> {
  const folder = mkdtempSync(join(tmpdir(), "engine-"));
  const home = join(folder, "home");
  mkdirSync(home, { mode: 0o700 });
  const display = await displayOf();
  const port = await freePort();
  const env = { ...process.env, DISPLAY: display.name, HOME: home, XDG_RUNTIME_DIR: home, LANG: "C.UTF-8" };
  const child = spawn(driver, [`--port=${port}`], { env, cwd: folder, stdio: "ignore", detached: true });
  const ask = askAt(`http://127.0.0.1:${port}`);
  await untilReady(ask);
  const { sessionId, capabilities } = (await ask("POST", "/session", {
    capabilities: { alwaysMatch: { "webkitgtk:browserOptions": { binary: findBrowser(), args: ["--automation"] } } },
  })) as { sessionId: string; capabilities: { browserVersion: string } };
  const session = (method: string, path: string, body?: object) => ask(method, `/session/${sessionId}${path}`, body);
  await session("POST", "/timeouts", { script: 300_000 });
  await session("POST", "/window/rect", { width: 1280, height: 880 });
  return {
    ...handsOf(session),
    version: `WebKitGTK ${capabilities.browserVersion}`,
    downloads: folder,
    async stop() {
      await session("DELETE", "").catch(() => {});
      end(child);
      display.end();
      rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
    },
  };
}

/** The Enter key (WebDriver, section 17.4.2). */
const enter = "\ue007";

type Ask = (method: string, path: string, body?: object) => Promise<unknown>;

function askAt(address: string): Ask {
  return async (method, path, body) => {
    const response = await fetch(address + path, { method, ...(body && { body: JSON.stringify(body) }) });
    const { value } = (await response.json()) as { value: unknown };
    if (!response.ok) throw new Error((value as { message?: string }).message ?? JSON.stringify(value));
    return value;
  };
}

async function untilReady(ask: Ask): Promise<void> {
  for (let tries = 0; ; tries++) {
    try {
      await ask("GET", "/status");
      return;
    } catch (error) {
      if (tries > 300) throw error;
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  }
}

function handsOf(session: Ask): Omit<Driven, "version" | "downloads" | "stop"> {
  const pointer = (actions: readonly object[]) =>
    session("POST", "/actions", {
      actions: [{ type: "pointer", id: "mouse", parameters: { pointerType: "mouse" }, actions }],
    });
  const move = ({ x, y }: Point) => ({
    type: "pointerMove",
    duration: 50,
    x: Math.round(x),
    y: Math.round(y),
    origin: "viewport",
  });
  const [down, up] = ["pointerDown", "pointerUp"].map((type) => ({ type, button: 0 }));
  return {
    goto: async (url) => void (await session("POST", "/url", { url })),
    reload: async () => void (await session("POST", "/refresh", {})),
    async run(work, ...words) {
      const script = `globalThis.__name ??= (work) => work; const done = arguments[1];
        Promise.resolve().then(() => (${work})(...arguments[0])).then((value) => done({ value }), (error) => done({ error: String(error) }));`;
      const said = (await session("POST", "/execute/async", { script, args: [words] })) as {
        value: never;
        error?: string;
      };
      if (said.error) throw new Error(said.error);
      return said.value;
    },
    press: async (at) => void (await pointer([move(at), down!, up!])),
    drag: async (from, to) => void (await pointer([move(from), down!, move(to), up!])),
    async type(text) {
      const keys = [...text.replaceAll("\n", enter)].flatMap((value) =>
        ["keyDown", "keyUp"].map((type) => ({ type, value })),
      );
      await session("POST", "/actions", { actions: [{ type: "key", id: "keys", actions: keys }] });
    },
    shot: async () => Buffer.from((await session("GET", "/screenshot")) as string, "base64"),
  };
}

/** The screen that is there, or one that nobody sees. */
async function displayOf(): Promise<{ readonly name: string; end(): void }> {
  if (process.env.DISPLAY) return { name: process.env.DISPLAY, end() {} };
  const words = ["-displayfd", "3", "-screen", "0", "1280x960x24", "-nolisten", "tcp"];
  const child = spawn(screen, words, { stdio: ["ignore", "ignore", "ignore", "pipe"], detached: true });
  const number = await new Promise<string>((resolve) =>
    child.stdio[3]!.once("data", (data) => resolve(String(data).trim())),
  );
  return { name: `:${number}`, end: () => end(child) };
}

function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const server = createServer();
    server.listen(0, "127.0.0.1", () => {
      const { port } = server.address() as { port: number };
      server.close(() => resolve(port));
    });
  });
}

/** The process and all that it started. */
function end({ pid }: ChildProcess): void {
  try {
    process.kill(-pid!, "SIGKILL");
  } catch {
    // gone already
  }
}
