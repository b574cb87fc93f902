import { defineConfig } from "vite";
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

export default defineConfig({
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
  ],
  build: {
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
    headers: { "Content-Security-Policy": `${policy}; frame-ancestors 'none'`, "X-Content-Type-Options": "nosniff" },
  },
});
