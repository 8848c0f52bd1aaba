import type { FurtherReading } from '../../physics';
import type { BuildState, Reading } from '../../sheet/schema';
import { openStateOf, type SheetRecipe } from '../photographs/edits';
import { emptyReading, measuredAgain } from './edits';

/** Readings to be filled in for a further work, its choices made; empty where it is not done in the readings panel. */
export function readingsFor(
  state: BuildState,
  { work, readings }: Pick<FurtherReading, 'work' | 'readings'>,
): readonly Reading[] {
  switch (work.kind) {
    case 'total mass':
    case 'axle scales':
    case 'wheel scales':
      return [emptyReading(work.kind)];
    case 'axle lift': {
      const lift = emptyReading('axle lift');
      if (lift.kind !== 'axle lift') return [];
      const planned = readings.find(({ kind }) => kind === 'axle lift');
      const under = planned?.kind === 'axle lift' ? planned.scaleUnder : 'rear';
      const own: Reading = {
        ...lift,
        raised: work.raised === 'front' ? 'front axle' : 'rear axle',
        scaleUnder: under === 'front' ? 'front axle' : 'rear axle',
        by: work.by,
      };
      return work.weighing ? [emptyReading('axle scales'), own] : [own];
    }
    case 'hang': {
      return work.from.flatMap((from): Reading[] => {
        const hang = emptyReading('hang line');
        if (hang.kind !== 'hang line') return [];
        return [{ ...hang, view: work.view, hook: 'hook' in from ? from.hook : null }];
      });
    }
    case 'board':
      return Array.from({ length: work.times }, () => work.toward)
        .flat()
        .flatMap((toward): Reading[] => {
          const board = emptyReading('tilt board');
          return board.kind === 'tilt board' ? [{ ...board, toward }] : [];
        });
    case 'balance': {
      const balance = emptyReading('balance on an edge');
      if (balance.kind !== 'balance on an edge') return [];
      return [{ ...balance, edge: work.edge === 'across' ? 'across the truck' : 'along the truck' }];
    }
    case 'again': {
      const own = state.readings.find(({ id }) => id === work.reading);
      return own ? [measuredAgain(own)] : [];
    }
    case 'tip line':
    case 'dimension':
      return [];
  }
}

/** Puts readings at the end of the list, as they are: a hang whose hook is still to be fitted has none. */
export const addReadings =
  (readings: readonly Reading[]): SheetRecipe =>
  (draft) => {
    openStateOf(draft)?.readings.push(...structuredClone([...readings]));
  };
