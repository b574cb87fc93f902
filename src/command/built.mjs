// Starts a command of this folder from a bundle: one file to load where the sources are a hundred and fifty to translate.
//   node src/command/built.mjs measure FILE …
// The bundle is made by the first call, beside the packages, and anew whenever the sources it is made of differ.

import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { root } from "./setup.mjs";

/** What a command may be made of: the layers that `command` may import. */
const layers = ["command", "capture", "exhaust", "signal", "problem.ts"].map((name) => join(root, "src", name));
const commands = ["measure", "compare", "survey", "survey-worker", "store-thread"];
const shelf = join(root, "node_modules/.cache/tracewright");
/** Bundles of other sources are cleared away after so long, ms: until then a call that began with one may be running. */
const mayRun = 24 * 3_600_000;

/** Path of the named command's bundle, made where there is none. */
async function bundleOf(name) {
  const digest = digestOf([...layers, join(root, "package-lock.json")]);
  process.env.TRACEWRIGHT_SOURCES = digest; // a survey that goes on must know whether it is still the same program
  const folder = join(shelf, digest);
  const path = join(folder, `${name}.mjs`);
  if (!existsSync(path)) await make(folder);
  return path;
}

/** Of all files below the places: their names and what is in them. */
function digestOf(places) {
  const digest = createHash("sha256").update(process.version);
  const take = (place) => {
    if (statSync(place).isDirectory()) {
      for (const name of readdirSync(place).sort()) take(join(place, name));
    } else if (/\.(ts|mjs|json)$/.test(place)) digest.update(place).update(readFileSync(place));
  };
  places.forEach(take);
  return digest.digest("hex").slice(0, 16);
}

/** Built aside and moved into place, so that calls at the same time never meet half a bundle. */
async function make(folder) {
  const { build } = await import("vite");
  mkdirSync(shelf, { recursive: true });
  const aside = `${folder}.${process.pid}`;
  await build({
    root,
    configFile: false,
    logLevel: "silent",
    ssr: { noExternal: true },
    build: {
      ssr: true,
      outDir: aside,
      emptyOutDir: true,
      target: "node20",
      rollupOptions: {
        input: Object.fromEntries(commands.map((name) => [name, join(root, `src/command/${name}.ts`)])),
        output: { entryFileNames: "[name].mjs", chunkFileNames: "[name]-[hash].mjs" },
      },
    },
  });
  try {
    renameSync(aside, folder);
  } catch {
    rmSync(aside, { recursive: true, force: true }); // another call was quicker
  }
  clearAway(folder);
}

function clearAway(inUse) {
  for (const name of readdirSync(shelf)) {
    const place = join(shelf, name);
    if (place === inUse || Date.now() - statSync(place).mtimeMs < mayRun) continue;
    rmSync(place, { recursive: true, force: true });
  }
}

/** Straight from the sources where no bundle can be made: slower, and the same. */
async function fromSources(name) {
  const { register } = await import("tsx/esm/api");
  register();
  return pathToFileURL(join(root, `src/command/${name}.ts`)).href;
}

const [name] = process.argv.splice(2, 1);
const entry = await bundleOf(name).then(
  (path) => pathToFileURL(path).href,
  () => fromSources(name),
);
await import(entry);
