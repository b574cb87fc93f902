// npm start: installs what is missing, builds, serves the page on loopback and prints the address.

import { ensurePackages, root } from "./setup.mjs";

ensurePackages();
const { build, preview } = await import("vite");
await build({ root, logLevel: "warn" });
const server = await preview({ root, preview: { host: "127.0.0.1", port: Number(process.env.PORT ?? 4180) } });
console.log(`Tracewright is at ${server.resolvedUrls?.local[0]}  (stop with Ctrl+C)`);
