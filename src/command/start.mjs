// npm start: installs what is missing, builds, serves the page on loopback and prints the address.

import { ensurePackages, root } from "./setup.mjs";

const port = Number(process.env.PORT ?? 4180);
refuseWords(process.argv.slice(2));
ensurePackages();
const { build, preview } = await import("vite");
await build({ root, logLevel: "warn" });
const server = await preview({ root, preview: { host: "127.0.0.1", port } });
console.log(`Tracewright is at ${server.resolvedUrls?.local[0]}  (stop with Ctrl+C)`);

/** Help is printed, and a word that means nothing here is not passed over: either way no server is started. */
function refuseWords(words) {
  if (words.length === 0) return;
  const isHelp = words.every((word) => ["-h", "--help", "help"].includes(word));
  const help = `npm start: builds the page, serves it on loopback at port ${port} (PORT=… for another) and prints the address. It takes no arguments.`;
  if (isHelp) console.log(help);
  else console.error(`npm start does not know “${words.join(" ")}”.\n${help}`);
  process.exit(isHelp ? 0 : 2);
}
