// Serves the built page once for all end-to-end tests. `npm test` builds it first; alone, run `npm run build`.

import { existsSync } from "node:fs";
import { preview } from "vite";
import type { TestProject } from "vitest/node";
import { root } from "../../src/command/setup.mjs";

declare module "vitest" {
  interface ProvidedContext {
    address: string;
  }
}

export default async function setup(project: TestProject) {
  if (!existsSync(`${root}dist/index.html`)) throw new Error("There is no build: run `npm run build` first.");
  const server = await preview({ root, preview: { host: "127.0.0.1", port: 0 }, logLevel: "error" });
  project.provide("address", server.resolvedUrls!.local[0]!);
  return () => server.close();
}
