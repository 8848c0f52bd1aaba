import { expect, test } from 'vitest';
import { tolerance } from '../tolerances';

/**
 * How far a value is vouched for.
 * seen: read in a copy of the source. recomputed: the inputs were seen, the answer is ours.
 * seen + recomputed: both, and they agree to the printed digits. from memory: not seen in print.
 */
export type Status = 'seen' | 'recomputed' | 'seen + recomputed' | 'from memory, recomputed';

/** One published number and the public function that must give it. */
export interface PublishedValue {
  readonly id: string;
  readonly what: string;
  readonly source: string;
  readonly status: Status;
  /** What the module gives, in the unit printed. */
  readonly ours: () => number;
  readonly printed: number;
  readonly unit: string;
  /** One unit of the last printed digit. */
  readonly lastDigit: number;
  /** Standard error of our number where it is drawn, same unit. */
  readonly drawn?: () => number;
}

/** One test a row: our number may differ from print by half its last digit, and by its own scatter where it is drawn. */
export const agreeWithPrint = (rows: readonly PublishedValue[]): void =>
  test.each([...rows])(
    '$id $what: $printed $unit ($status; $source)',
    ({ ours, printed, lastDigit, unit, drawn }) => {
      const actual = ours();
      const limit =
        tolerance('published: last digit') * lastDigit +
        tolerance('published: standard errors') * (drawn?.() ?? 0);
      expect(
        Math.abs(actual - printed),
        `actual ${actual} ${unit}, printed ${printed} ${unit}, limit ${limit} ${unit}`,
      ).toBeLessThanOrEqual(limit);
    },
  );
