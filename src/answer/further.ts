import type { BuildState } from '../sheet/schema';
import type { BenchAnswer } from './benchAnswer';
import type { NextReading } from './nextReading';

/** The further reading that buys most. */
export function bestFurther(_state: BuildState, _answer: Omit<BenchAnswer, 'next'>): NextReading | null {
  return null;
}
