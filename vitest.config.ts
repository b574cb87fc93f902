import { playwright } from "@vitest/browser-playwright";
import solid from "vite-plugin-solid";
import { defineConfig } from "vitest/config";
import { launchOptions } from "./tests/browser.ts";
import { builtWorkers } from "./tests/built-workers.ts";
import { readWords } from "./tests/ocr.ts";

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: "node",
          environment: "node",
          // One set of modules for all files of a worker: no test of these changes one, and loading takes longer than testing.
          isolate: false,
          include: ["tests/**/*.test.ts"],
          exclude: ["tests/e2e/**", "tests/**/*.browser.test.ts"],
          testTimeout: 60_000,
        },
      },
      {
        plugins: [solid(), builtWorkers()],
        // Found late, they would make the page reload in the middle of a test, with a second copy of Solid.
        optimizeDeps: {
          include: ["@solidjs/testing-library", "axe-core", "solid-js", "solid-js/web", "comlink", "hash-wasm"],
        },
        test: {
          name: "chromium",
          env: { ALL_TRIALS: process.env.ALL_TRIALS ?? "" },
          include: ["tests/**/*.test.tsx", "tests/**/*.browser.test.ts"],
          testTimeout: 30_000,
          expect: { poll: { timeout: 15_000 } },
          browser: {
            enabled: true,
            // One page for all files, as in Node: each takes down what it put up, and leaves no key and no record behind.
            isolate: false,
            headless: true,
            screenshotFailures: false,
            commands: { readWords: (_, pngs: readonly string[]) => readWords(pngs) },
            provider: playwright({ launchOptions }),
            instances: [{ browser: "chromium" }],
          },
        },
      },
      {
        test: {
          name: "e2e",
          environment: "node",
          // One browser for all files, see tests/e2e/page.ts; each visit has a profile of its own.
          isolate: false,
          include: ["tests/e2e/**/*.test.ts"],
          globalSetup: ["tests/e2e/serve.ts"],
          testTimeout: 120_000,
          expect: { poll: { timeout: 15_000 } },
          hookTimeout: 120_000,
          fileParallelism: false,
        },
      },
    ],
  },
});
