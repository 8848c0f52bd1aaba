import { VIEW_AXES, hangLine, kilograms, meters, radians, success } from '../physics';
import type {
  Angle,
  HangView,
  Length,
  PictureLinesReading,
  PlaneLine,
  PlanePoint,
  Result,
  SharedValue,
  SharedWithPictures,
} from '../physics';
import type { PictureAdjustment } from './fit/adjustPictures';
import type { HangingPicture, TruckGivens } from './fit/givens';
import { PLANE_OF_VIEW, toTruck } from './views';
import type { TruckPoint } from './views';

type Covariance = PictureAdjustment['adjustment']['covariance'];

/**
 * From adjusted pictures to plumb lines in truck axes: every line with the shift for its own droop, and all of them
 * with what the fit says of wheelbase, tires, axles and ruler as one reading with one covariance, because they share
 * marks, scale and the standing pictures.
 */

export interface PlumbLine {
  readonly pictureId: string;
  /** Null where nobody said which. */
  readonly hookId: string | null;
  /** The plane in which the line lies; its axes as VIEW_AXES names them. */
  readonly view: HangView;
  /** The line on which the CG of the truck at ride height lies; its direction runs down the string. */
  readonly line: PlaneLine;
  /** Where the hook hung, in the line's plane. */
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
  const at = (index: number) => p[index] ?? NaN;
  // An object has no axles, and the fit's rounding must not give it any.
  const shareOf = (index: number) => kilograms(truck.axes === 'truck' ? at(index) : 0);
  const rows: number[][] = [];
  const row = () => {
    const fresh = new Array<number>(p.length).fill(0);
    rows.push(fresh);
    return fresh;
  };
  const out: PlumbLine[] = [];
  for (const hang of hangs) {
    const own = layout.hangs.get(hang.id);
    if (!own) continue;
    const plane = PLANE_OF_VIEW[hang.view];
    const [first, second] = VIEW_AXES[plane];
    const carrier = truck.hooks.find(({ id }) => id === hang.hook)?.carrier ?? 'body';
    // A free axle's droop shows in a picture from a side alone, where the plane's axes are x and z.
    const droopAt = (index: number | null) => ({
      x: meters(index === null ? 0 : at(index)),
      z: meters(index === null ? 0 : at(index + 1)),
    });
    const angle = at(own.stringAngle);
    const down = toTruck(hang.view, { a: -Math.cos(angle), b: -Math.sin(angle), c: 0 });
    const direction = radians(Math.atan2(down[second], down[first]));
    const hook = { x: meters(at(own.hook + AXIS[first])), z: meters(at(own.hook + AXIS[second])) };
    // Only shares of the mass enter, so the truck's mass is one.
    const droop = {
      mass: kilograms(1),
      front: { mass: shareOf(layout.frontShare), shift: droopAt(own.frontDroop) },
      rear: { mass: shareOf(layout.rearShare), shift: droopAt(own.rearDroop) },
    };
    const corrected = hangLine(hook, carrier, direction, droop);
    if (!corrected.ok) return corrected;
    const { line, shift, acrossLine, sensitivities: s } = corrected.value;
    row()[own.stringAngle] = turning(hang.view);
    const offset = row();
    const [nx, nz] = [-Math.sin(direction), Math.cos(direction)];
    offset[own.hook + AXIS[first]] = nx * s.hook;
    offset[own.hook + AXIS[second]] = nz * s.hook;
    for (const [index, by] of [
      [own.frontDroop, s.frontShift],
      [own.rearDroop, s.rearShift],
    ] as const) {
      if (index === null) continue;
      offset[index] = nx * by;
      offset[index + 1] = nz * by;
    }
    offset[layout.frontShare] = nx * s.frontMass.x + nz * s.frontMass.z;
    offset[layout.rearShare] = nx * s.rearMass.x + nz * s.rearMass.z;
    const hungAxle = carrier === 'body' ? null : carrier === 'front axle' ? own.frontDroop : own.rearDroop;
    const hung = droopAt(hungAxle);
    out.push({
      pictureId: hang.id,
      hookId: hang.hook,
      view: plane,
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
  const shared: SharedValue[] = [];
  const share = (index: number, valueAs: (value: number) => SharedValue) => {
    row()[index] = 1;
    shared.push(valueAs(at(index)));
  };
  // An object without wheels has nothing else measured that a picture could share but the ruler.
  const ofTruck: readonly (readonly [SharedWithPictures, number | null])[] = [
    ['wheelbase', layout.wheelbase],
    ['front track', truck.frontTrack ? layout.frontTrack : null],
    ['rear track', truck.rearTrack ? layout.rearTrack : null],
    ['front tire radius', layout.frontRadius],
    ['rear tire radius', layout.rearRadius],
  ];
  const axles: typeof ofTruck = [
    ['front axle share', layout.frontShare],
    ['rear axle share', layout.rearShare],
  ];
  const sizes: readonly (readonly [SharedWithPictures, number | null])[] = [
    ...(truck.axes === 'truck' ? ofTruck : []),
    ['lateral place', layout.lateral],
    ...(truck.axes === 'truck' ? axles : []),
    ['ruler zero', layout.rulerZero],
  ];
  for (const [quantity, index] of sizes) if (index !== null) share(index, (value) => ({ quantity, value }));
  for (const { id, ruled } of truck.hooks) {
    const index = layout.hooks.get(id);
    if (index === undefined || !ruled || !sharedHooks.has(id)) continue;
    for (const axis of ['x', 'z', 'y'] as const)
      share(index + AXIS[axis], (value) => ({ quantity: 'hook', hook: id, axis, value }));
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
      lines: out.map(({ pictureId, view, line }) => ({ id: pictureId, view, line })),
      shared,
      covariance,
    },
    sensitivities: rows,
  });
}

/** Where each axis of a place in truck axes stands among its three unknowns. */
const AXIS = { x: 0, y: 1, z: 2 } as const;

/** Whether a direction that turns counter-clockwise in the picture does so in the plane of the truck, too. */
function turning(view: HangingPicture['view']): 1 | -1 {
  const [first, second] = VIEW_AXES[PLANE_OF_VIEW[view]];
  const right = toTruck(view, { a: 1, b: 0, c: 0 });
  const up = toTruck(view, { a: 0, b: 1, c: 0 });
  const cross = (p: TruckPoint, q: TruckPoint) => p[first] * q[second] - p[second] * q[first];
  return cross(right, up) > 0 ? 1 : -1;
}

/** Standard uncertainty of a line where it passes a place of its plane, across itself, m. */
export function acrossAt({ hangs, reading }: JointLines, pictureId: string, place: PlanePoint): number {
  const k = hangs.findIndex((hang) => hang.pictureId === pictureId);
  const line = hangs[k]?.line;
  if (!line) return 0;
  const lever =
    Math.cos(line.angle) * (place.x - line.through.x) + Math.sin(line.angle) * (place.z - line.through.z);
  const at = (i: number, j: number) => reading.covariance[2 * k + i]?.[2 * k + j] ?? NaN;
  return Math.sqrt(Math.max(0, at(1, 1) + 2 * lever * at(0, 1) + lever * lever * at(0, 0)));
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
