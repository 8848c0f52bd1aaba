import { errorEllipse, refusal, success } from '../physics';
import type { Ellipse, Estimate, Length, Mass, Result, TruckAdjustment, TruckReading } from '../physics';

/** The center of gravity of the one adjustment, in three dimensions with its covariance. */

export interface CgEstimate {
  /**
   * 'truck': ahead of the rear axle, left of center, above ground. 'own': along an object's first axis from its origin,
   * toward the viewer negative, and across that axis.
   */
  readonly axes: 'truck' | 'own';
  /** Ahead of the rear axle, left of center, above ground. */
  readonly ahead: Estimate<Length>;
  readonly left: Estimate<Length>;
  readonly height: Estimate<Length>;
  /** 3 × 3 (m²), order ahead, left, height. */
  readonly covariance: readonly (readonly number[])[];
  /** As adjusted; null where no reading needed one. */
  readonly wheelbase: Estimate<Length> | null;
  readonly mass: Estimate<Mass> | null;
  /** 95 % region in the side plane. */
  readonly ellipse: Ellipse;
  readonly lateralFrom: 'measured' | 'assumed';
}

/** Whether any reading tells where the center of gravity lies across the truck. */
export const tellsLateral = (readings: readonly TruckReading[]): boolean =>
  readings.some(
    (reading) =>
      reading.kind === 'wheel scales' ||
      reading.kind === 'parts list' ||
      (reading.kind === 'tilt' && (reading.toward === 'left' || reading.toward === 'right')) ||
      (reading.kind === 'balance' && reading.edge === 'along') ||
      (reading.kind === 'hang' && reading.view !== 'side') ||
      (reading.kind === 'picture lines' && reading.lines.some(({ view }) => view !== 'side')),
  );

/** Refused with reason 'undetermined' where the readings do not determine all three coordinates. */
export function cgEstimate(
  adjustment: TruckAdjustment,
  readings: readonly TruckReading[],
  axes: CgEstimate['axes'] = 'truck',
): Result<CgEstimate, 'undetermined'> {
  const { x, y, z } = adjustment.cg;
  if (!x || !y || !z) return refusal('undetermined', undeterminedInWords(adjustment, axes));
  const covariance = [0, 1, 2].map((i) => [0, 1, 2].map((j) => adjustment.stanceCovariance[i]?.[j] ?? NaN));
  const inSidePlane = [0, 2].map((i) => [0, 2].map((j) => covariance[i]?.[j] ?? NaN));
  return success({
    axes,
    ahead: x,
    left: y,
    height: z,
    covariance,
    wheelbase: adjustment.wheelbase,
    mass: adjustment.mass,
    ellipse: errorEllipse(inSidePlane),
    lateralFrom: tellsLateral(readings) ? 'measured' : 'assumed',
  });
}

function undeterminedInWords({ undetermined, cg }: TruckAdjustment, axes: CgEstimate['axes']): string {
  if (axes === 'own') return 'One line gives no point. Hang it from a second place, far from the first.';
  if (!cg.x && !cg.z)
    return 'One line gives no point. Hang the truck from a second hook, weigh its axles, or tilt it.';
  if (undetermined.includes('z'))
    return 'No reading tells the height. Hang the truck, lift one axle on the scale, or tilt it on a board.';
  return 'No reading tells how far ahead it lies. Weigh both axles, or balance the truck on an edge.';
}
