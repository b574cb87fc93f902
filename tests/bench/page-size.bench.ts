// How much of the page's own code and styles comes before it can be used, gzipped.

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { build } from "vite";
import { root } from "../../src/command/setup.mjs";
import type { Bench } from "./bench.ts";

const budget = 120_000;

export const bench: Bench = {
  name: "page-size",
  async run() {
    await build({ root, logLevel: "error" });
    const dist = join(root, "dist");
    const page = readFileSync(join(dist, "index.html"), "utf8");
    const first = [...page.matchAll(/(?:src|href)="\.?\/?([^"]+\.(?:js|css))"/g)].map(([, name]) => join(dist, name!));
    const size = first.reduce((sum, path) => sum + gzipSync(readFileSync(path)).length, 0);
    return [
      {
        what: "code and styles the page starts with, gzip",
        budget: "< 120 kB",
        figure: `${(size / 1000).toFixed(1)} kB in ${first.length} files`,
        peer: "-",
        ratio: "-",
        holds: first.length > 0 && size < budget,
      },
    ];
  },
};
