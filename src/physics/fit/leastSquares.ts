import { Matrix } from 'ml-matrix';
import { solveCurved } from './curvedSolve';
import { influenceOf, type Influence } from './influence';
import { looseNames, solveLinear, structureOf } from './linearSolve';
import { derivativeOf, residualsOf, type Observation, type Unknown } from './observation';
import { refusal, success, type Result } from '../quantities';
import { whiten, whitener, whitenRows, type Whitened } from './whitening';

/**
 * Weighted least squares: the one core that everything which fits goes through.
 *
 * Unknowns are adjusted to readings, every reading with its uncertainty and a model that predicts it. A prior is
 * a reading of an unknown. Readings that share an error are one observation with a full covariance matrix. The
 * normal law is assumed; a-priori uncertainties are not rescaled by the fit.
 */

export { derivativeOf, prior, type Observation, type Unknown } from './observation';
export { whitener, type Whitener } from './whitening';
export type { LeftOut, Probe } from './influence';

export interface Adjustment extends Influence {
  /** Adjusted unknowns, in the order given. */
  readonly unknowns: Float64Array;
  /** Covariance of the adjusted unknowns, n × n. */
  readonly covariance: Matrix;
  /** Sum of squared whitened residuals, priors included. */
  readonly chiSquared: number;
  /** Number of values read (priors included) minus number of unknowns. */
  readonly degreesOfFreedom: number;
  /** Value minus prediction, per observation. */
  readonly residuals: readonly (readonly number[])[];
  /** Whitened residuals, per observation. */
  readonly normalized: readonly (readonly number[])[];
  readonly iterations: number;
}

export type AdjustmentRefusal = 'undetermined' | 'not-converged';

/** A step this long, in standard uncertainties of the whole fit, changes no printed digit: ± is shown to two. */
const NEGLIGIBLE_STEP = 1e-3;

/** Steps by the full curvature are tried when the last one was shorter than this, in standard uncertainties. */
const NEAR = 3;

/** Newton's steps square the error: after one this short, in standard uncertainties, 1e-3 is not left. */
const LAST_CURVED_STEP = 0.03;
/** Steps led by an earlier covariance end when this short, or when one is not this part of the one before. */
const LAST_LED_STEP = 0.01;
const LED_GAIN = 0.5;

/** The step that an earlier fit's covariance (scaled) takes down the slope of this one: C Jᵀ r. */
function ledStep(covariance: Matrix, observations: readonly Observation[], whitened: readonly Whitened[]) {
  const size = covariance.rows;
  const downhill = new Float64Array(size);
  observations.forEach(({ depends }, k) => {
    const { rows = [], residuals = [] } = whitened[k] ?? {};
    rows.forEach((row, i) =>
      depends.forEach(
        (index, column) =>
          (downhill[index] = (downhill[index] ?? 0) + (row[column] ?? 0) * (residuals[i] ?? 0)),
      ),
    );
  });
  const step = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    let sum = 0;
    for (let j = 0; j < size; j++) sum += covariance.get(i, j) * (downhill[j] ?? 0);
    step[i] = sum;
  }
  return step;
}

export interface AdjustmentOptions {
  /**
   * Takes the covariance from the full curvature at the solution, and the last steps to it: for models whose
   * readings multiply unknowns.
   */
  readonly curvature?: boolean;
  readonly maxIterations?: number;
  /**
   * Start from here instead of the unknowns' own start, as from the adjustment before a small change of one reading.
   * With `curvature`, its covariance also leads the first steps.
   */
  readonly start?: { readonly unknowns: Float64Array; readonly covariance?: Matrix };
}

/**
 * Adjusts `unknowns` to `observations` by Gauss-Newton steps, each solved by QR and halved until chi-squared no
 * longer rises; with `curvature`, the last steps are Newton's. Stops when every unknown's step is below its negligible
 * size, or when the whole step is below a thousandth of the fit's own standard uncertainty.
 *
 * Refuses with 'undetermined' when some unknown has no reading that determines it (the message names them), and
 * with 'not-converged' after `maxIterations` (default 40), when no step lowers chi-squared, or where a prediction or
 * its derivative is no number.
 *
 * Source: Björck (1996), 9.2 (Gauss-Newton with step control); JCGM 102:2011, 7 (least-squares models);
 * covariance (Jᵀ C⁻¹ J)⁻¹.
 * @throws RangeError when an uncertainty is not positive or a covariance not positive definite (a caller's bug).
 */
export function adjust(
  unknowns: readonly Unknown[],
  observations: readonly Observation[],
  options: AdjustmentOptions = {},
): Result<Adjustment, AdjustmentRefusal> {
  const maxIterations = options.maxIterations ?? 40;
  const scales = Float64Array.from(unknowns, ({ scale }) => scale);
  const structure = structureOf(unknowns, observations);
  const whiteners = observations.map(whitener);
  let at = options.start
    ? Float64Array.from(options.start.unknowns)
    : Float64Array.from(unknowns, ({ start }) => start);

  const whitenedResiduals = (place: Float64Array) =>
    observations.map((observation, k) => whiten(whiteners[k] ?? [], residualsOf(observation, place)));
  const sumOfSquares = (parts: readonly (readonly number[])[]) =>
    parts.reduce((sum, part) => part.reduce((s, r) => s + r * r, sum), 0);
  const linearize = (place: Float64Array, residuals: readonly (readonly number[])[]): Whitened[] =>
    observations.map((observation, k) => ({
      rows: whitenRows(
        whiteners[k] ?? [],
        derivativeOf(observation, place, scales),
        observation.depends,
        scales,
      ),
      residuals: residuals[k] ?? [],
    }));

  let residuals = whitenedResiduals(at);
  let chiSquared = sumOfSquares(residuals);
  if (!Number.isFinite(chiSquared))
    return refusal('not-converged', 'The fit cannot predict every reading where it starts.');
  let near = options.start !== undefined;
  let leading: Matrix | null = null;
  const before = options.curvature ? options.start?.covariance : undefined;
  if (before?.rows === unknowns.length) {
    leading = before.clone();
    for (let i = 0; i < unknowns.length; i++)
      for (let j = 0; j < unknowns.length; j++)
        leading.set(i, j, before.get(i, j) / ((scales[i] ?? 1) * (scales[j] ?? 1)));
  }
  let lastSquared = Infinity;
  for (let iteration = 1; iteration <= maxIterations; iteration++) {
    const whitened = linearize(at, residuals);
    if (!whitened.every(({ rows }) => rows.every((row) => row.every(Number.isFinite))))
      return refusal('not-converged', 'The fit came to where it cannot predict every reading.');
    const led = leading && ledStep(leading, observations, whitened);
    const curved =
      options.curvature && near && !led ? solveCurved(observations, whiteners, whitened, at, scales) : null;
    const linear = led ? null : (curved ?? solveLinear(structure, observations, whitened));
    if (linear && linear.loose.length > 0) {
      const names = looseNames(unknowns, observations, whitened);
      return refusal('undetermined', `No reading determines ${names.slice(0, 4).join(', ')}.`);
    }
    const step = led ?? linear?.step ?? new Float64Array(unknowns.length);
    let factor = 1;
    let next = at;
    let nextResiduals = residuals;
    let nextChiSquared = Infinity;
    // 2^-20 of a Gauss-Newton step is below every negligible size in use: if that does not help, nothing will.
    for (let halving = 0; halving <= 20; halving++, factor /= 2) {
      next = at.map((value, i) => value + factor * (step[i] ?? 0) * (scales[i] ?? 1));
      nextResiduals = whitenedResiduals(next);
      nextChiSquared = sumOfSquares(nextResiduals);
      if (nextChiSquared <= chiSquared * (1 + 1e-12) + 1e-12) break;
    }
    // |J·step|² is the squared length of the step in units of the unknowns' joint standard uncertainty.
    const stepSquared = whitened.reduce(
      (sum, { rows }, k) =>
        rows.reduce((inner, row) => {
          let along = 0;
          observations[k]?.depends.forEach(
            (index, column) => (along += (row[column] ?? 0) * (step[index] ?? 0)),
          );
          return inner + along * along;
        }, sum),
      0,
    );
    const shortest = curved ? LAST_CURVED_STEP : NEGLIGIBLE_STEP;
    const settled =
      linear !== null &&
      (stepSquared < shortest ** 2 ||
        unknowns.every(({ scale, negligible }, i) => Math.abs(step[i] ?? 0) * scale < negligible));
    const lower = nextChiSquared <= chiSquared * (1 + 1e-12) + 1e-12;
    if (lower) {
      at = next;
      residuals = nextResiduals;
      chiSquared = nextChiSquared;
    } else if (linear && !settled) {
      return refusal('not-converged', 'The fit found no step that lowers its misfit.');
    }
    near = stepSquared < NEAR ** 2;
    if (!lower || stepSquared < LAST_LED_STEP ** 2 || stepSquared > LED_GAIN ** 2 * lastSquared)
      leading = null;
    lastSquared = stepSquared;
    if (!settled || !linear) continue;

    const bottom =
      curved ?? (options.curvature ? solveCurved(observations, whiteners, whitened, at, scales) : null);
    const scaled = (bottom ?? linear).covariance();
    const covariance = Matrix.zeros(unknowns.length, unknowns.length);
    for (let i = 0; i < unknowns.length; i++)
      for (let j = 0; j < unknowns.length; j++)
        covariance.set(i, j, scaled.get(i, j) * (scales[i] ?? 1) * (scales[j] ?? 1));
    const count = observations.reduce((sum, { values }) => sum + values.length, 0);
    const influence = influenceOf({
      scales,
      observations,
      whiteners,
      whitened,
      residuals,
      covariance: scaled,
      curved: bottom !== null,
    });
    return success({
      unknowns: at,
      covariance,
      chiSquared,
      degreesOfFreedom: count - unknowns.length,
      residuals: observations.map((observation) => residualsOf(observation, at)),
      normalized: residuals,
      iterations: iteration,
      ...influence,
    });
  }
  return refusal('not-converged', `The fit did not settle within ${maxIterations} steps.`);
}
