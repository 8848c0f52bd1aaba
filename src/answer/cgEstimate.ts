import { propagate, refusal, truckTipAngles } from '../physics';
import type { Ellipse, Estimate, Length, MeetingPoint, Result, TruckTips } from '../physics';
import type { JointLines } from '../photo/plumbLines';
import type { StateReadings } from '../photo/readState';

/** The center of gravity in three dimensions with its covariance, and the tip angles that follow from it. */

export interface CgEstimate {
  /** Ahead of the rear axle, left of center, above ground. */
  readonly ahead: Estimate<Length>;
  readonly left: Estimate<Length>;
  readonly height: Estimate<Length>;
  /** 3 × 3 (m²), order ahead, left, height. */
  readonly covariance: readonly (readonly number[])[];
  readonly wheelbase: Estimate<Length>;
  /** 4 × 4 (m²), order ahead, left, height, wheelbase: pictures scaled by the wheelbase share its error. */
  readonly jointCovariance: readonly (readonly number[])[];
  /** 95 % region in the side plane. */
  readonly ellipse: Ellipse;
  readonly lateralFrom: 'wheel scales' | 'assumed';
}

/** Covariance of CG ahead, left, height and the wheelbase (m²), from the joint covariance of the lines. */
export function spatialCovariance(
  joint: JointLines,
  meeting: MeetingPoint,
  readings: StateReadings,
): number[][] {
  const count = 2 * joint.lines.length;
  const padded = (row: readonly number[]) => [...row, 0, 0];
  const unit = (place: number) => Array.from({ length: count + 2 }, (_, i) => (i === place ? 1 : 0));
  const rows = [
    padded(meeting.sensitivities[0] ?? []),
    unit(count),
    padded(meeting.sensitivities[1] ?? []),
    unit(count + 1),
  ];
  const covariance = propagate(rows, joint.covariance);
  // Wheel scales read fore-aft and lateral place from the same four loads.
  const shared = readings.shareLeftCovariance * joint.wheelbase.value;
  if (readings.foreAft && shared !== 0) {
    const byOffset = (row: number) => meeting.sensitivities[row]?.[count - 1] ?? 0;
    for (const [i, row] of [
      [0, 0],
      [2, 1],
    ] as const) {
      const add = byOffset(row) * shared;
      const line = covariance[i];
      const left = covariance[1];
      if (line && left) {
        line[1] = (line[1] ?? 0) + add;
        left[i] = (left[i] ?? 0) + add;
      }
    }
  }
  return covariance;
}

export function tipsOf(
  cg: CgEstimate,
  cgAndWheelbase: readonly (readonly number[])[],
  joint: { readonly wheelbase: { readonly value: Length } },
  readings: StateReadings,
): Result<TruckTips> {
  const { frontTrack, rearTrack, treadWidth } = readings;
  if (!frontTrack || !rearTrack) {
    const which =
      !frontTrack && !rearTrack ? 'front and rear track' : frontTrack ? 'rear track' : 'front track';
    return refusal('missing', `Still needed for the tip angles: the ${which}, tire center to tire center.`);
  }
  const tracks = [frontTrack, rearTrack];
  const covariance = Array.from({ length: 6 }, (_, i) =>
    Array.from({ length: 6 }, (_, j) => {
      if (i < 4 && j < 4) return cgAndWheelbase[i]?.[j] ?? NaN;
      return i === j ? (tracks[i - 4]?.u ?? NaN) ** 2 : 0;
    }),
  );
  return truckTipAngles(
    {
      cg: { x: cg.ahead.value, y: cg.left.value, z: cg.height.value },
      wheelbase: joint.wheelbase.value,
      frontTrack: frontTrack.value,
      rearTrack: rearTrack.value,
      covariance,
    },
    treadWidth?.value ?? null,
  );
}
