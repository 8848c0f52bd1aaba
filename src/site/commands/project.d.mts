export const root: string;
export const dist: string;
export const cache: string;
export function say(text?: string): void;
export function stop(text: string): never;
