// What a test in Chromium may ask of Node; see vitest.config.ts.

declare module "vitest/browser" {
  interface BrowserCommands {
    readWords(pngs: readonly string[]): Promise<string[]>;
  }
}

export {};
