import type { Typed } from './given';

/** Short words of the tables of fields: numbers with units, and the reasons that several fields share. */

export const mm = (number: number): Typed => ({ number, unit: 'mm' });
export const m = (number: number): Typed => ({ number, unit: 'm' });
export const g = (number: number): Typed => ({ number, unit: 'g' });
export const kg = (number: number): Typed => ({ number, unit: 'kg' });
export const deg = (number: number): Typed => ({ number, unit: 'deg' });
export const share = (number: number): Typed => ({ number, unit: '%' });

export const because = (typed: Typed, reason: string) => ({ ...typed, reason });
export const within = (typed: Typed, reason: string) => ({ ...typed, kind: 'expanded' as const, reason });
export const limits = (typed: Typed, reason: string) => ({ ...typed, kind: 'limits' as const, reason });

export const RULER = 'a steel ruler, read at both ends';
export const SCALE = 'kitchen scales show steps of 1 to 5 g and stick a little';
export const BY_EYE = 'the middle of a part is judged by eye';
