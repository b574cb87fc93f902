export function findBrowser(): string | null;
export function ensureBrowser(): string;
