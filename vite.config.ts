import { createHash } from "node:crypto";
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { defineConfig } from "vite";
import { VitePWA } from "vite-plugin-pwa";
import solid from "vite-plugin-solid";

/** Nothing but the page's own origin. The same policy stands in index.html for other hosts. */
const policy = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'", // the digest of large files
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "font-src 'self' data:",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");

/** How long the build's own plugins took is no news for who starts the page. */
const quiet = { pluginTimings: false };

/** A digest of all sources below some folders, or of single files. */
function digestOf(places: readonly string[]): string {
  const files = places.flatMap((place) => {
    const path = join(import.meta.dirname, place);
    if (!statSync(path).isDirectory()) return [path];
    const names = readdirSync(path, { recursive: true, encoding: "utf8" });
    return names.filter((name) => name.endsWith(".ts")).map((name) => join(path, name));
  });
  const digest = createHash("sha256");
  for (const file of files.sort()) digest.update(readFileSync(file));
  return digest.digest("hex");
}

/** Answers that were kept by other sources are measured again; until then the old one is shown, if its shape is still known. */
const measuredBy = () => ({
  sources: digestOf(["package-lock.json", "src/signal", "src/capture", "src/exhaust", "workers"]),
  shapes: digestOf(["src/exhaust/terms", "src/signal/numbers/reading.ts", "workers/protocol.ts"]),
});

export default defineConfig(({ command }) => ({
  // While the sources change under the page nothing is kept.
  define: command === "build" ? { measuredBy: JSON.stringify(measuredBy()) } : {},
  plugins: [
    solid(),
    {
      name: "policy-in-the-page",
      transformIndexHtml: {
        order: "pre",
        handler: (html, { server }) =>
          server
            ? html
            : html.replace("<!-- policy -->", `<meta http-equiv="Content-Security-Policy" content="${policy}" />`),
      },
    },
    VitePWA({
      // The page registers it itself and offers what is newer, see src/app/offline.
      injectRegister: false,
      registerType: "prompt",
      manifest: {
        name: "Tracewright",
        short_name: "Tracewright",
        description: "Oxygen sensors before and after the catalyst: traces, readings with bounds, findings, exhibits.",
        display: "standalone",
        background_color: "#fffdf9",
        theme_color: "#fffdf9",
        icons: [192, 512].map((size) => ({
          src: `icon-${size}.png`,
          sizes: `${size}x${size}`,
          type: "image/png",
          purpose: "any maskable",
        })),
      },
      workbox: {
        // All of the build, samples and fonts too: nothing that the page may ask for comes from anywhere else.
        globPatterns: ["**/*"],
        globIgnores: ["sw.js", "licences.md"],
        maximumFileSizeToCacheInBytes: 1 << 26,
        clientsClaim: true,
        skipWaiting: false,
        cleanupOutdatedCaches: true,
        inlineWorkboxRuntime: true,
        navigateFallback: "index.html",
        sourcemap: false,
      },
    }),
  ],
  build: {
    // The licence texts of the packages that the build holds.
    license: { fileName: "licences.md" },
    target: "es2022",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 800,
    rollupOptions: {
      checks: quiet,
      output: {
        // Servers send a file named .gz with Content-Encoding, and the browser would unpack it: hide the ending.
        assetFileNames: ({ names }) =>
          names.some((name) => name.endsWith(".gz")) ? "assets/[name]-[hash].packed" : "assets/[name]-[hash][extname]",
      },
    },
  },
  worker: {
    rollupOptions: { checks: quiet },
    format: "es",
  },
  preview: {
    cors: false,
    headers: {
      "Content-Security-Policy": `${policy}; frame-ancestors 'none'`,
      "X-Content-Type-Options": "nosniff",
      "Referrer-Policy": "no-referrer",
    },
  },
}));
