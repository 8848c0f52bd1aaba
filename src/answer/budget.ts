import { meters } from '../physics';
import type { Length, TruckAdjustment, TruckReading } from '../physics';
import type { Source } from '../photo/fit/unknowns';
import { PICTURES_ID } from '../photo/plumbLines';
import type { PicturesRead } from './pictureLines';

/** What makes the ±: how much of it each kind of reading brings. */

/** A kind of reading, as the table of what makes the ± tells them apart. */
export type BudgetSource =
  | Source
  | 'scales'
  | 'axle lift'
  | 'hang by ruler'
  | 'board'
  | 'tip line'
  | 'balance'
  | 'parts list'
  | 'sizes'
  | 'level';

export interface BudgetRow {
  readonly source: BudgetSource;
  /** Standard uncertainty it brings. */
  readonly ahead: Length;
  readonly height: Length;
}

const OF_READING: Readonly<Record<Exclude<TruckReading['kind'], 'picture lines'>, BudgetSource>> = {
  'total mass': 'scales',
  'axle scales': 'scales',
  'wheel scales': 'scales',
  'axle lift': 'axle lift',
  hang: 'hang by ruler',
  tilt: 'board',
  balance: 'balance',
  'parts list': 'parts list',
};

/** What belongs to no reading, by the first word of its name. */
const OF_GIVEN: Readonly<Record<string, BudgetSource>> = {
  scaleZero: 'scales',
  rulerZero: 'ruler',
  levelZero: 'level',
  lateral: 'lateral place',
  tip: 'tip line',
  hook: 'hook place',
};

/** Shares of an adjustment's CG by source, largest in height first (JCGM 100:2008, 5.1.3). */
export function budgetOf(
  joint: TruckAdjustment,
  pictures: PicturesRead,
  kinds: ReadonlyMap<string, TruckReading['kind']>,
): BudgetRow[] {
  const { model, adjustment } = joint;
  const sourceOf = new Map<number, BudgetSource>();
  for (const { id, reading, observation } of model.numbers) {
    const kind = reading === null ? undefined : kinds.get(reading);
    if (kind === 'picture lines') continue;
    sourceOf.set(observation, kind ? OF_READING[kind] : (OF_GIVEN[id.split(' ')[0] ?? ''] ?? 'sizes'));
  }
  const [ahead, height] = [model.at.x, model.at.z].map((index) => {
    const totals = new Map<BudgetSource, number>();
    const put = (source: BudgetSource, variance: number) =>
      totals.set(source, (totals.get(source) ?? 0) + variance);
    const gradient = model.unknowns.map((_, i) => (i === index ? 1 : 0));
    adjustment.varianceShares(gradient).forEach((variance, observation) => {
      const source = sourceOf.get(observation);
      if (source) put(source, variance);
    });
    for (const [source, variance] of picturesShare(joint, pictures, index)) put(source, variance);
    return totals;
  });
  const sources = new Set([...(ahead?.keys() ?? []), ...(height?.keys() ?? [])]);
  return [...sources]
    .map((source) => ({
      source,
      ahead: meters(Math.sqrt(ahead?.get(source) ?? 0)),
      height: meters(Math.sqrt(height?.get(source) ?? 0)),
    }))
    .toSorted((a, b) => b.height - a.height);
}

/** How far the unknown moves for each value of the pictures' reading, in the order of its covariance. */
export function gainOfPictures(joint: TruckAdjustment, index: number): readonly number[] | null {
  const observation = observationOfPictures(joint);
  const size = joint.model.observations[observation]?.values.length;
  if (size === undefined) return null;
  return Array.from({ length: size }, (_, value) => {
    const direction = Array.from({ length: size }, (__, i) => (i === value ? 1 : 0));
    return joint.adjustment.probe(observation, direction).shift[index] ?? 0;
  });
}

const observationOfPictures = ({ model }: TruckAdjustment): number =>
  model.observations.findIndex(({ name }) => name === PICTURES_ID);

/** The pictures' part of an unknown's variance, split by what the fit of the pictures rests on. */
function picturesShare(
  joint: TruckAdjustment,
  { adjusted, joint: lines }: PicturesRead,
  index: number,
): Map<BudgetSource, number> {
  const totals = new Map<BudgetSource, number>();
  const gain = adjusted && lines && gainOfPictures(joint, index);
  if (!gain) return totals;
  const size = adjusted.adjustment.unknowns.length;
  const gradient = Array.from({ length: size }, (_, k) =>
    gain.reduce((sum, g, value) => sum + g * (lines.sensitivities[value]?.[k] ?? 0), 0),
  );
  adjusted.adjustment.varianceShares(gradient).forEach((variance, i) => {
    const source = adjusted.sources[i];
    if (source) totals.set(source, (totals.get(source) ?? 0) + variance);
  });
  return totals;
}
