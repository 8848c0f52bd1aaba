import { hangLine, kilograms, meters, radians, success } from '../physics';
import type {
  Angle,
  Length,
  PictureLinesReading,
  PlaneLine,
  PlanePoint,
  Result,
  SharedValue,
  SharedWithPictures,
} from '../physics';
import type { HangingPicture, PictureAdjustment, TruckGivens } from './adjustPictures';

type Covariance = PictureAdjustment['adjustment']['covariance'];

/**
 * From adjusted pictures to plumb lines in truck axes: every line with the shift for its own droop, and all of them
 * with what the fit says of wheelbase, tires, axles and ruler as one reading with one covariance, because they share
 * marks, scale and the standing picture.
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

export interface JointLines {
  readonly hangs: readonly PlumbLine[];
  /** The lines and what the pictures share with other readings, with their covariance. */
  readonly reading: PictureLinesReading;
  /** Derivative of every value of `reading`, in the order of its covariance, by the fit's unknowns. */
  readonly sensitivities: readonly (readonly number[])[];
}

/** Id of the one reading that all pictures of a truck make together. */
export const PICTURES_ID = 'pictures';

/**
 * A string tied anew bears at least this far, m, from where it bore before. It changes no answer; it lets three hangs
 * by one hook, whose lines all pass through that one point, have a covariance that can be inverted.
 */
const STRING_SEAT_U = 1e-5;

/** Part of a variance that rounding may cost it: two quantities as good as equal keep a covariance that can be inverted. */
const ROUNDING = 1e-8;

/**
 * Lines of the hangs among `adjusted` as one reading. It shares the places of ruled hooks among `sharedHooks`, the ones
 * that readings without pictures use too; any others would only make it larger. Refused where hangLine() refuses one of them: axles that weigh
 * more than the truck.
 */
export function plumbLines(
  adjusted: PictureAdjustment,
  truck: TruckGivens,
  hangs: readonly HangingPicture[],
  sharedHooks: ReadonlySet<string> = new Set(),
): Result<JointLines> {
  const { adjustment, layout } = adjusted;
  const { unknowns: p } = adjustment;
  const nose = truck.noseDirection;
  const at = (index: number) => p[index] ?? NaN;
  const rows: number[][] = [];
  const row = () => {
    const fresh = new Array<number>(p.length).fill(0);
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
  // Toward the camera in view axes, to the left in the truck's.
  const left = nose === 1 ? -1 : 1;
  const shared: SharedValue[] = [];
  const share = (index: number, sign: 1 | -1, valueAs: (value: number) => SharedValue) => {
    row()[index] = sign;
    shared.push(valueAs(sign * at(index)));
  };
  const sizes: readonly (readonly [SharedWithPictures, number, 1 | -1])[] = [
    ['wheelbase', layout.wheelbase, 1],
    ['front tire radius', layout.frontRadius, 1],
    ['rear tire radius', layout.rearRadius, 1],
    ['lateral place', layout.lateral, left],
    ['front axle share', layout.frontShare, 1],
    ['rear axle share', layout.rearShare, 1],
    ['ruler zero', layout.rulerZero, 1],
  ];
  for (const [quantity, index, sign] of sizes) share(index, sign, (value) => ({ quantity, value }));
  for (const { id, ruled } of truck.hooks) {
    const index = layout.hooks.get(id);
    if (index === undefined || !ruled || !sharedHooks.has(id)) continue;
    const coordinates = [
      ['x', nose],
      ['z', 1],
      ['y', left],
    ] as const;
    coordinates.forEach(([axis, sign], k) =>
      share(index + k, sign, (value) => ({ quantity: 'hook', hook: id, axis, value })),
    );
  }
  const covariance = carried(rows, adjustment.covariance);
  covariance.forEach((own, i) => {
    const seat = i < 2 * out.length && i % 2 === 1 ? STRING_SEAT_U ** 2 : 0;
    own[i] = (own[i] ?? 0) * (1 + ROUNDING) + seat;
  });
  return success({
    hangs: out,
    reading: {
      kind: 'picture lines',
      id: PICTURES_ID,
      view: 'side',
      lines: out.map(({ pictureId, line }) => ({ id: pictureId, line })),
      shared,
      covariance,
    },
    sensitivities: rows,
  });
}

/**
 * Covariance of linear results of the fit's unknowns; most sensitivities are zero, and only the others are
 * multiplied.
 */
function carried(rows: readonly (readonly number[])[], unknowns: Covariance): number[][] {
  const terms = rows.map((row) => row.flatMap((by, index) => (by === 0 ? [] : [{ by, index }])));
  return terms.map((a) =>
    terms.map((b) => {
      let sum = 0;
      for (const p of a) for (const q of b) sum += p.by * q.by * unknowns.get(p.index, q.index);
      return sum;
    }),
  );
}
