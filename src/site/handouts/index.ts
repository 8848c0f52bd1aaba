import type { Handout } from './handout.ts';
import { stickerSheet } from './stickerSheet.ts';

export type { Handout };

/** Every page to print. */
export const HANDOUTS: readonly Handout[] = [stickerSheet];
