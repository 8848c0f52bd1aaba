import type { AnySheet, MigrationStep } from './migrations';

const isRecord = (value: unknown): value is AnySheet =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Neither a number nor a ± of its own was typed. */
const isBlank = (given: unknown): boolean =>
  isRecord(given) &&
  [given['text'], given['plusMinus']].every((text) => typeof text === 'string' && text.trim() === '');

/** "total-mass", or that with the first number behind it that no reading has. */
function freeId(readings: readonly unknown[]): string {
  const taken = new Set(readings.map((reading) => (isRecord(reading) ? reading['id'] : undefined)));
  let id = 'total-mass';
  for (let number = 2; taken.has(id); number += 1) id = `total-mass-${number}`;
  return id;
}

const empty = (unit: string) => ({ text: '', unit, plusMinus: '', kind: 'expanded' });

function liftState(state: unknown): unknown {
  if (!isRecord(state)) return state;
  const { mass, readings, ...rest } = state;
  const before: readonly unknown[] | null = Array.isArray(readings) ? readings : null;
  const weighed =
    before && mass !== undefined && !isBlank(mass)
      ? [{ id: freeId(before), kind: 'total mass', load: mass, counted: true, note: '' }, ...before]
      : readings;
  return {
    ...rest,
    readings: weighed,
    instruments: { scaleZero: empty('g'), rulerZero: empty('mm'), levelZero: empty('deg') },
    countPartsList: false,
    changes: [],
  };
}

/** The truck's mass becomes a reading like any other; instruments and intended changes come in, empty. */
export const version1To2: MigrationStep = {
  from: 1,
  what: 'a typed mass is the first reading; instruments, countPartsList and changes are new',
  change: (sheet) => ({
    ...sheet,
    states: Array.isArray(sheet['states']) ? sheet['states'].map(liftState) : sheet['states'],
  }),
};
