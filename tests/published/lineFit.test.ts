import { describe } from 'vitest';
import { orthogonalLine } from '../../src/photo/find';
import { valueOf } from '../physics/given';
import { agreeWithPrint } from './published';

const PEARSON =
  'K. Pearson, On lines and planes of closest fit to systems of points in space, Philosophical Magazine 2 (1901), 559-572';
const KAPTEYN = `Kapteyn Package documentation, least squares fitting, Pearson's data and method; data of ${PEARSON}`;

const x = [0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4];
const y = [5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5];
const line = valueOf(orthogonalLine(x.map((at, i) => ({ x: at, y: y[i] ?? NaN, weight: 1 }))));
const slope = line.direction[1] / line.direction[0];

describe('line of closest fit, against print', () => {
  agreeWithPrint([
    {
      id: 'pearson-slope',
      what: 'slope',
      source: `${PEARSON}; quoted in the Kapteyn Package documentation`,
      status: 'seen + recomputed',
      ours: () => slope,
      printed: -0.546,
      unit: '1',
      lastDigit: 0.001,
    },
    {
      id: 'pearson-centroid-x',
      what: 'centroid, x',
      source: `${PEARSON}; quoted in the Kapteyn Package documentation`,
      status: 'seen + recomputed',
      ours: () => line.centroid.x,
      printed: 3.82,
      unit: '1',
      lastDigit: 0.01,
    },
    {
      id: 'pearson-centroid-y',
      what: 'centroid, y',
      source: `${PEARSON}; quoted in the Kapteyn Package documentation`,
      status: 'seen + recomputed',
      ours: () => line.centroid.y,
      printed: 3.7,
      unit: '1',
      lastDigit: 0.01,
    },
    {
      id: 'kapteyn-slope',
      what: 'slope',
      source: KAPTEYN,
      status: 'seen + recomputed',
      ours: () => slope,
      printed: -0.5455611975,
      unit: '1',
      lastDigit: 1e-10,
    },
    {
      id: 'kapteyn-offset',
      what: 'offset at x = 0',
      source: KAPTEYN,
      status: 'seen + recomputed',
      ours: () => line.centroid.y - slope * line.centroid.x,
      printed: 5.7840437745,
      unit: '1',
      lastDigit: 1e-10,
    },
    {
      id: 'kapteyn-squares',
      what: 'sum of squared distances',
      source: KAPTEYN,
      status: 'seen + recomputed',
      ours: () => line.squares,
      printed: 0.618572759437,
      unit: '1',
      lastDigit: 1e-12,
    },
  ]);
});
