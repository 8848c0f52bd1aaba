import { describe, expect, test } from 'vitest';
import { type NamedBlunder, findBlunder } from '../../../src/physics';
import { random } from '../../demo/world/random';
import { tolerance } from '../../tolerances';
import type { BlunderOptions, WorldBench } from '../../world/bench';
import { makeBench } from '../../world/bench';
import { checkedNumbers, residualsAlike } from '../../world/information';
import { numbersOf } from '../../world/numbers';

/**
 * The search for the wrong number, on simulated benches in which one is. Whether a blunder can be found at all is worked
 * out by the simulated bench itself, from its own slopes. SOAK=20000 takes ten times as many sets, as in estimate.test.ts.
 */
const SETS = Number(process.env['SOAK'] ?? 2000);
/** Generous to a slow machine, ms a set; a search that leaves out every number takes some hundred adjustments. */
const PATIENCE = { clean: 60, searched: 600 } as const;

/** Identifiable: this far off in standard deviations of its own residual, and a pair with any rival told apart at 95 %. */
const STANDS_OUT = 5;
const TOLD_APART = 1.64;

const searched = ({ bench }: WorldBench): NamedBlunder | null => findBlunder(bench)?.named ?? null;

/** The reading that a number belongs to, or the number itself where it is a size, a hook or an instrument. */
const readingOf = ({ bench }: WorldBench): ((id: string) => string) => {
  const readings = new Map(numbersOf(bench).map(({ id, reading }) => [id, reading ?? id]));
  return (id) => readings.get(id) ?? id;
};

const identifiable = (set: WorldBench, wrong: { readonly id: string; readonly by: number }): boolean => {
  const reading = readingOf(set);
  const numbers = checkedNumbers(set.shown, set.information);
  const own = numbers.find(({ id }) => id === wrong.id);
  if (!own) return false;
  const shift = Math.abs(wrong.by) * own.perUnit;
  return (
    shift >= STANDS_OUT &&
    numbers
      .filter(({ id, perUnit }) => perUnit > 0 && reading(id) !== reading(wrong.id))
      .every((rival) => shift * Math.sqrt((1 - Math.abs(residualsAlike(own, rival))) / 2) >= TOLD_APART)
  );
};

/** What is counted over sets with a blunder each. */
interface Found {
  identifiable: number;
  right: number;
  others: number;
  named: number;
  held: number;
}

const search = (sets: number, blunder: (number: number) => BlunderOptions): Found => {
  const found: Found = { identifiable: 0, right: 0, others: 0, named: 0, held: 0 };
  for (let number = 1; number <= sets; number += 1) {
    const set = makeBench(number, { errors: 'normal', blunder: blunder(number) });
    const { wrong } = set;
    if (!wrong) continue;
    const named = searched(set);
    if (identifiable(set, wrong)) {
      const reading = readingOf(set);
      found.identifiable += 1;
      if (named && reading(named.first.id) === reading(wrong.id)) found.right += 1;
    } else {
      found.others += 1;
      if (!named) continue;
      found.named += 1;
      if (named.group.some(({ id }) => id === wrong.id)) found.held += 1;
    }
  }
  return found;
};

const told = ({ identifiable: clear, right, others, named, held }: Found): string =>
  `identifiable ${clear}, right reading named ${(right / clear).toFixed(4)}; others ${others}, something named in ${named}, the wrong one among them ${(held / named).toFixed(4)}`;

test(
  'no more than 5 % of clean benches are accused',
  async ({ annotate }) => {
    let accused = 0;
    for (let number = 1; number <= SETS; number += 1)
      if (searched(makeBench(number, { errors: 'normal' }))) accused += 1;
    await annotate(`clean sets accused: ${(accused / SETS).toFixed(4)}`);
    expect(accused / SETS).toBeLessThanOrEqual(tolerance('simulated bench: false alarms'));
  },
  SETS * PATIENCE.clean,
);

describe.each([
  {
    blunders: 'any number off by 3 to 40 of its u',
    sets: SETS / 4,
    blunder: (number: number): BlunderOptions => ({
      size: Math.exp(random(number, 'size').between(Math.log(3), Math.log(40))),
    }),
  },
  {
    blunders: 'slips of the bench',
    sets: SETS / 8,
    blunder: (): BlunderOptions => ({ size: 'slip' }),
  },
  {
    blunders: 'wrong units',
    sets: SETS / 16,
    blunder: (): BlunderOptions => ({ size: 'wrong unit' }),
  },
])('$blunders', ({ sets, blunder }) => {
  test(
    'the right reading is named, or the group that holds it',
    async ({ annotate }) => {
      const found = search(sets, blunder);
      await annotate(told(found));
      expect(found.identifiable).toBeGreaterThan(0);
      expect(found.right / found.identifiable).toBeGreaterThanOrEqual(
        tolerance('simulated bench: right one named'),
      );
      expect(found.held / found.named).toBeGreaterThanOrEqual(
        tolerance('simulated bench: group holds the wrong one'),
      );
    },
    sets * PATIENCE.searched,
  );
});
