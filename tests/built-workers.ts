// Workers of the browser's tests in one file each. Served source by source, every one that a test starts asks for some four
// hundred of them, and asking takes longer than testing.

import { join } from "node:path";
import { build, type Plugin, type Rollup } from "vite";

const root = join(import.meta.dirname, "..");
const base = "/built-workers/";
const entries = [
  "tests/workers/playground.worker.ts",
  "workers/service/capture.worker.ts",
  "src/app/core/record.worker.ts",
];

/** How long plugins took is no news here. */
const quiet = { pluginTimings: false };

/** Code of all files of the build, by the path that they are asked for. */
async function bundle(): Promise<ReadonlyMap<string, string>> {
  const { output } = (await build({
    root,
    base,
    configFile: false,
    logLevel: "warn",
    worker: { format: "es", rollupOptions: { checks: quiet } },
    build: {
      write: false,
      minify: false,
      target: "es2022",
      modulePreload: false,
      rollupOptions: {
        checks: quiet,
        input: Object.fromEntries(entries.map((path) => [path, join(root, path)])),
        output: { entryFileNames: "[name].js" },
      },
    },
  })) as Rollup.RollupOutput;
  return new Map(
    output.map((file) => [base + file.fileName, file.type === "chunk" ? file.code : String(file.source)] as const),
  );
}

/** Answers for the sources of workers with what was built of them, once for the whole run. */
export function builtWorkers(): Plugin {
  let built: ReturnType<typeof bundle> | undefined;
  const codeOf = async (path: string, isSource: boolean) => {
    built ??= bundle();
    const files = await built;
    return isSource ? `import "${base}${path.slice(1)}.js";` : files.get(path);
  };
  return {
    name: "built-workers",
    configureServer({ middlewares, watcher }) {
      watcher.on("change", () => {
        built = undefined;
      });
      middlewares.use((request, response, next) => {
        const { pathname, searchParams } = new URL(request.url ?? "/", "http://here");
        const isSource = searchParams.has("worker_file") && entries.includes(pathname.slice(1));
        if (!isSource && !pathname.startsWith(base)) return next();
        const answer = (code: string | undefined) => {
          if (code === undefined) return next();
          response.setHeader("Content-Type", "text/javascript");
          response.end(code);
        };
        void codeOf(pathname, isSource).then(answer, next);
      });
    },
  };
}
