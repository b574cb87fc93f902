// Which layer may import which: imports only ever point down this list.

const may = {
  signal: [],
  capture: ["signal"],
  exhaust: ["signal", "capture"],
  drawing: ["signal"],
  plot: ["signal", "capture", "exhaust", "drawing"],
  job: ["signal", "capture", "exhaust"],
  report: ["signal", "capture", "exhaust", "job", "drawing"],
  command: ["signal", "capture", "exhaust", "drawing"],
  app: ["signal", "capture", "exhaust", "drawing", "plot", "job", "report"],
};

const home = {
  "solid-js": "src/(app|plot)",
  uplot: "src/plot",
  papaparse: "src/capture",
  hyparquet: "src/capture",
  "hyparquet-compressors": "src/capture",
  fflate: "src/(capture|job)",
  "@zip[.]js": "src/capture",
  "idb-keyval": "src/job",
  valibot: "src/job",
  comlink: "workers",
  "hash-wasm": "workers",
  "fft[.]js": "src/signal",
};

const error = (name, from, to) => ({ name, severity: "error", from, to });

export default {
  forbidden: [
    ...Object.entries(may).map(([layer, below]) =>
      error(
        `${layer}-looks-down-only`,
        { path: `^src/${layer}/` },
        {
          path: "^(src|workers|tests|sample-traces)/",
          pathNot: [
            `^src/(${[layer, ...below].join("|")})/`,
            "^src/problem[.]ts$",
            ...(layer === "app" ? ["^workers/(client|protocol)[.]ts$", "^sample-traces/index[.]ts$"] : []),
          ],
        },
      ),
    ),
    ...Object.entries(home).map(([pkg, folder]) =>
      error(
        `${pkg.replace("[.]", "-")}-has-one-home`,
        { path: "^(src|workers)/", pathNot: `^${folder}/` },
        { path: `node_modules/${pkg}/` },
      ),
    ),
    error("no-cycles", {}, { circular: true }),
    error("problem-stands-alone", { path: "^src/problem[.]ts$" }, { path: "." }),
    error(
      "signal-uses-one-package",
      { path: "^src/signal/" },
      { path: "node_modules/", pathNot: "node_modules/fft[.]js/" },
    ),
    error(
      "pure-layers-see-no-node",
      { path: "^src/(signal|capture|exhaust|drawing|plot|job|report|app)/" },
      { dependencyTypes: ["core"] },
    ),
    error("workers-see-no-page", { path: "^workers/" }, { path: "^src/(app|plot|job|report|command)/" }),
    error("nothing-unresolved", {}, { couldNotResolve: true }),
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    doNotFollow: { path: "node_modules" },
    enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["import", "require", "node", "default"] },
  },
};
