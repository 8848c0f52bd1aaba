import { describe, expect, test } from 'vitest';
import {
  type Carrier,
  type Droop,
  type PlaneLine,
  cgFromAxleScales,
  distanceToLine,
  firstOrder,
  hangLine,
  joinCovariances,
  kilograms,
  meetingPoint,
  meters,
  monteCarlo,
  radians,
  uprightLine,
} from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { covarianceGap, seeded, valueOf } from '../given';

/**
 * Two hangs of one truck with free suspension and its axle scales: three lines whose errors have common causes. All
 * lengths are read with one ruler, the axles' masses count in both hangs, the wheelbase in the scales' line.
 */
const INPUTS: readonly (readonly [name: string, value: number, u: number])[] = [
  ['ruler', 1, 0.006],
  ['hook 1 x', 0.31, 0.0007],
  ['hook 1 z', 0.19, 0.0007],
  ['hook 2 x', -0.02, 0.0007],
  ['hook 2 z', 0.17, 0.0007],
  ['direction 1', -2.5, 0.004],
  ['direction 2', -0.42, 0.004],
  ['front axle', 0.62, 0.06],
  ['rear axle', 0.58, 0.06],
  ['truck', 2.4, 0.002],
  ['front droop z 1', -0.018, 0.001],
  ['rear droop z 1', -0.006, 0.001],
  ['front droop z 2', -0.004, 0.001],
  ['rear droop z 2', -0.02, 0.001],
  ['front scale', 1.28, 0.004],
  ['rear scale', 1.12, 0.004],
  ['wheelbase', 0.313, 0.0004],
];
const values = INPUTS.map(([, value]) => value);
const independentInputs = joinCovariances(INPUTS.map(([, , u]) => [[u * u]]));

const linesOf = (x: readonly number[]): PlaneLine[] => {
  const input = (name: string): number => x[INPUTS.findIndex(([each]) => each === name)] ?? NaN;
  const long = (name: string) => meters(input('ruler') * input(name));
  const hang = (number: 1 | 2, carrier: Carrier): PlaneLine => {
    const droop: Droop = {
      mass: kilograms(input('truck')),
      front: {
        mass: kilograms(input('front axle')),
        shift: { x: meters(0), z: long(`front droop z ${number}`) },
      },
      rear: {
        mass: kilograms(input('rear axle')),
        shift: { x: meters(0), z: long(`rear droop z ${number}`) },
      },
    };
    const hook = { x: long(`hook ${number} x`), z: long(`hook ${number} z`) };
    return valueOf(hangLine(hook, carrier, radians(input(`direction ${number}`)), droop)).line;
  };
  const scales = cgFromAxleScales(
    { value: kilograms(input('front scale')), u: 0 },
    { value: kilograms(input('rear scale')), u: 0 },
    { value: long('wheelbase'), u: 0 },
  );
  return [hang(1, 'front axle'), hang(2, 'body'), uprightLine(valueOf(scales).x.value)];
};

const nominal = linesOf(values);
/** Angle and offset of every line, the offset counted at the nominal line's own point. */
const parametersOf = (x: readonly number[]): number[] =>
  linesOf(x).flatMap((line, i) => {
    const from = nominal[i] ?? line;
    return [line.angle, -distanceToLine(line, from.through)];
  });

describe('lines with common causes', () => {
  const { covariance } = firstOrder(parametersOf, values, independentInputs);
  const pointOf = (lines: readonly PlaneLine[]) => {
    const met = valueOf(meetingPoint(lines, covariance));
    return [met.x, met.z];
  };
  // The nominal lines need not meet: they are put through one point, so that only errors move it.
  const meant = valueOf(meetingPoint(nominal, covariance));
  const through = (lines: readonly PlaneLine[]): PlaneLine[] =>
    lines.map((line, i) => {
      const from = nominal[i] ?? line;
      const miss = distanceToLine(from, meant);
      return {
        angle: line.angle,
        through: {
          x: meters(line.through.x - Math.sin(from.angle) * miss),
          z: meters(line.through.z + Math.cos(from.angle) * miss),
        },
      };
    });
  const drawn = monteCarlo((x) => pointOf(through(linesOf(x))), values, independentInputs, 4000, seeded(12));

  test('joint propagation agrees with Monte Carlo from the readings on', () => {
    const met = valueOf(meetingPoint(through(nominal), covariance));
    // Four standard errors over 4,000 draws are twice those over 20,000.
    expect(covarianceGap(drawn.covariance, met.covariance)).toBeLessThan(
      2 * tolerance('physics: first order against Monte Carlo'),
    );
  });

  test('taking the lines as independent would not', () => {
    const apart = covariance.map((row, i) =>
      row.map((value, j) => (Math.floor(i / 2) === Math.floor(j / 2) ? value : 0)),
    );
    const met = valueOf(meetingPoint(through(nominal), apart));
    expect(covarianceGap(drawn.covariance, met.covariance)).toBeGreaterThan(
      4 * tolerance('physics: first order against Monte Carlo'),
    );
  });
});
