export const root: string;
export function ensurePackages(): void;
