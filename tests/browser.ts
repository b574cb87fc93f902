// How the tests start Chromium.

import { findBrowser } from "./chromium.mjs";

const path = findBrowser();

export const launchOptions = {
  ...(path ? { executablePath: path } : {}),
  headless: true,
  args: [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
  ],
};
