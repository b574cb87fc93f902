export const root: string;
export function ensurePackages(): void;
export function findBrowser(): string | null;
export function ensureBrowser(): string;
