export const CHROMIUM_FLAGS: string[];
export function findChromium(): string | undefined;
export function ensureChromium(): string;
