export function brokenLinks(folder: string): string[];
