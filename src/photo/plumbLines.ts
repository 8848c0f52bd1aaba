import { hangLine, kilograms, meters, radians, success, uprightLine } from '../physics';
import type { Angle, Length, PlaneLine, PlanePoint, Result } from '../physics';
import type { HangingPicture, PictureAdjustment, TruckGivens } from './adjustPictures';

type Covariance = PictureAdjustment['adjustment']['covariance'];

/**
 * From adjusted pictures to plumb lines in truck axes: every line with the shift for its own droop, and the joint
 * covariance of all of them, because they share marks, scale, wheelbase and the standing picture.
 */

export interface PlumbLine {
  readonly pictureId: string;
  readonly hookId: string;
  /** The line on which the CG of the truck at ride height lies; its direction runs down the string. */
  readonly line: PlaneLine;
  /** Where the hook hung, in truck axes. */
  readonly hook: PlanePoint;
  /** How far droop moved the CG while hanging, and how far the correction moved the line across itself. */
  readonly droop: { readonly ahead: Length; readonly up: Length; readonly across: Length };
  /** Standard uncertainty of the line's direction. */
  readonly angleU: Angle;
}

/** A fore-aft reading that enters as the line x = constant: x = share · wheelbase. */
export interface ForeAftReading {
  readonly share: number;
  readonly u: number;
}

export interface JointLines {
  readonly hangs: readonly PlumbLine[];
  /** All lines, those of the hangs first, then the fore-aft line where there is one. */
  readonly lines: readonly PlaneLine[];
  /** Covariance of the line parameters (angle, offset per line), then CG left of center, then wheelbase. */
  readonly covariance: number[][];
  /** Sensitivity of those parameters to the fit's unknowns, and to the fore-aft share (last column). */
  readonly sensitivities: number[][];
  readonly left: { readonly value: Length; readonly u: number };
  readonly wheelbase: { readonly value: Length; readonly u: number };
}

/**
 * Lines of the hangs among `adjusted` with their covariance, and the fore-aft line where scales give one. Refused
 * where hangLine() refuses one of them: axles that weigh more than the truck.
 */
export function plumbLines(
  adjusted: PictureAdjustment,
  truck: TruckGivens,
  hangs: readonly HangingPicture[],
  foreAft: ForeAftReading | null,
): Result<JointLines> {
  const { adjustment, layout } = adjusted;
  const { unknowns: p } = adjustment;
  const nose = truck.noseDirection;
  const at = (index: number) => p[index] ?? NaN;
  const size = p.length + 1;
  const rows: number[][] = [];
  const row = () => {
    const fresh = new Array<number>(size).fill(0);
    rows.push(fresh);
    return fresh;
  };
  const out: PlumbLine[] = [];
  for (const hang of hangs) {
    const own = layout.hangs.get(hang.id);
    const hookIndex = layout.hooks.get(hang.hook);
    const carrier = truck.hooks.find(({ id }) => id === hang.hook)?.carrier;
    if (!own || hookIndex === undefined || !carrier) continue;
    const droopAt = (index: number | null) => ({
      x: meters(index === null ? 0 : nose * at(index)),
      z: meters(index === null ? 0 : at(index + 1)),
    });
    const up = at(own.stringAngle);
    const direction = radians(Math.atan2(-Math.sin(up), -nose * Math.cos(up)));
    const hook = { x: meters(nose * at(hookIndex)), z: meters(at(hookIndex + 1)) };
    // Only shares of the mass enter, so the truck's mass is one.
    const droop = {
      mass: kilograms(1),
      front: { mass: kilograms(at(layout.frontShare)), shift: droopAt(own.frontDroop) },
      rear: { mass: kilograms(at(layout.rearShare)), shift: droopAt(own.rearDroop) },
    };
    const corrected = hangLine(hook, carrier, direction, droop);
    if (!corrected.ok) return corrected;
    const { line, shift, acrossLine, sensitivities: s } = corrected.value;
    const angleRow = row();
    angleRow[own.stringAngle] = nose;
    const offset = row();
    const [nx, nz] = [-Math.sin(direction), Math.cos(direction)];
    offset[hookIndex] = nx * nose * s.hook;
    offset[hookIndex + 1] = nz * s.hook;
    for (const [index, by] of [
      [own.frontDroop, s.frontShift],
      [own.rearDroop, s.rearShift],
    ] as const) {
      if (index === null) continue;
      offset[index] = nx * nose * by;
      offset[index + 1] = nz * by;
    }
    offset[layout.frontShare] = nx * s.frontMass.x + nz * s.frontMass.z;
    offset[layout.rearShare] = nx * s.rearMass.x + nz * s.rearMass.z;
    const hungAxle = carrier === 'body' ? null : carrier === 'front axle' ? own.frontDroop : own.rearDroop;
    const hung = droopAt(hungAxle);
    out.push({
      pictureId: hang.id,
      hookId: hang.hook,
      line,
      hook: { x: meters(hook.x + hung.x), z: meters(hook.z + hung.z) },
      droop: {
        ahead: meters(hung.x - shift.x),
        up: meters(hung.z - shift.z),
        across: acrossLine,
      },
      angleU: radians(Math.sqrt(adjustment.covariance.get(own.stringAngle, own.stringAngle))),
    });
  }
  const wheelbase = at(layout.wheelbase);
  const lines = out.map(({ line }) => line);
  if (foreAft) {
    lines.push(uprightLine(meters(foreAft.share * wheelbase)));
    row();
    const offset = row();
    offset[layout.wheelbase] = foreAft.share;
    offset[size - 1] = wheelbase;
  }
  const left = row();
  left[layout.lateral] = -nose;
  row()[layout.wheelbase] = 1;

  const covariance = carried(rows, adjustment.covariance, (foreAft?.u ?? 0) ** 2);
  const n = covariance.length;
  const uOf = (i: number) => Math.sqrt(covariance[i]?.[i] ?? NaN);
  return success({
    hangs: out,
    lines,
    covariance,
    sensitivities: rows,
    left: { value: meters(-nose * at(layout.lateral)), u: uOf(n - 2) },
    wheelbase: { value: meters(wheelbase), u: uOf(n - 1) },
  });
}

/**
 * Covariance of linear results of the fit's unknowns and one independent last input of `variance`; most sensitivities
 * are zero, and only the others are multiplied.
 */
function carried(rows: readonly (readonly number[])[], unknowns: Covariance, variance: number): number[][] {
  const terms = rows.map((row) => row.flatMap((by, index) => (by === 0 ? [] : [{ by, index }])));
  const last = unknowns.rows;
  const entry = (i: number, j: number) =>
    i < last && j < last ? unknowns.get(i, j) : i === j ? variance : 0;
  return terms.map((a) =>
    terms.map((b) => {
      let sum = 0;
      for (const p of a) for (const q of b) sum += p.by * q.by * entry(p.index, q.index);
      return sum;
    }),
  );
}
