import * as v from 'valibot';

/**
 * The bench sheet: everything known of one truck, as the reader typed it. One version of the schema; older
 * versions are lifted to it in migrations.ts before validation.
 *
 * Numbers are kept as typed text beside their unit, so that "12.3 in" stays 12.3 in and an entry that cannot be
 * read yet is not lost. readGiven() in given.ts turns a Given into SI or says what is wrong with it.
 */

export const SHEET_FORMAT = 'plumb-low-bench-sheet';
export const SHEET_VERSION = 1;

const Id = v.pipe(v.string(), v.minLength(1), v.maxLength(60));
const Text = v.pipe(v.string(), v.maxLength(4000));
const Typed = v.pipe(v.string(), v.maxLength(60));

/** How a typed ± is meant: 'expanded' holds 19 times in 20 (1.96 u); 'limits' are hard limits (half width = √3 u). */
const PlusMinusKind = v.picklist(['expanded', 'limits']);

const given = <Units extends readonly [string, ...string[]]>(units: Units) =>
  v.strictObject({
    /** The number as typed; '' while empty. */
    text: Typed,
    unit: v.picklist(units),
    /** The ± as typed, in the same unit; '' means the field's default applies. */
    plusMinus: Typed,
    kind: PlusMinusKind,
  });

export const GivenLength = given(['mm', 'cm', 'm', 'in']);
export const GivenMass = given(['g', 'kg', 'oz', 'lb']);
export const GivenAngle = given(['deg', 'rad', '%']);
export const GivenPixels = given(['px']);
export const GivenShare = given(['%']);

/** Side of the truck the camera stood on. */
export const View = v.picklist(['left', 'right']);
export const Carrier = v.picklist(['body', 'front axle', 'rear axle']);

export const Dimensions = v.strictObject({
  wheelbase: GivenLength,
  /** Tire center to tire center. */
  frontTrack: GivenLength,
  rearTrack: GivenLength,
  /** Over the tires' outer faces. */
  outsideWidth: GivenLength,
  treadWidth: GivenLength,
  /** Hub height above ground under load, what the module calls the tire's radius. */
  frontTireRadius: GivenLength,
  rearTireRadius: GivenLength,
});

/** A part of the parts list. Places in truck axes; a removed part has a negative mass. */
export const Part = v.strictObject({
  id: Id,
  name: Text,
  carrier: Carrier,
  mass: GivenMass,
  ahead: GivenLength,
  left: GivenLength,
  height: GivenLength,
});

/** A landmark of the sprung body that can be found again in every picture. */
export const BodyMark = v.strictObject({
  /** Letter shown at the mark: A to F. */
  key: v.pipe(v.string(), v.regex(/^[A-F]$/)),
  name: Text,
  /** How far the landmark lies from the truck's center plane, toward the camera. */
  depth: GivenLength,
});

export const Hook = v.strictObject({
  id: Id,
  name: Text,
  carrier: Carrier,
  /** Where its place comes from: measured with a ruler, or read off the standing picture. */
  source: v.picklist(['ruler', 'standing picture']),
  ahead: GivenLength,
  height: GivenLength,
  /** Left of the center plane. */
  left: GivenLength,
});

/**
 * What a mark in a picture stands for. Body marks and hooks carry their key or id.
 * 'scale 1' and 'scale 2' are the two points of known distance, where the scale does not come from the hubs.
 */
export const MarkRole = v.union([
  v.picklist([
    'front hub',
    'rear hub',
    'ground front',
    'ground rear',
    'scale 1',
    'scale 2',
    'string upper',
    'string lower',
  ]),
  v.pipe(v.string(), v.regex(/^mark [A-F]$/)),
  v.pipe(v.string(), v.regex(/^hook .{1,60}$/)),
]);

/** A marked point, in pixels of the full-size upright picture: x right, y down, (0, 0) at its upper left corner. */
export const Mark = v.strictObject({
  role: MarkRole,
  x: v.pipe(v.number(), v.finite()),
  y: v.pipe(v.number(), v.finite()),
  /** The reader's own ± of this mark; '' means the picture's default. */
  plusMinus: Typed,
  /** false when the reader set this mark aside. */
  counted: v.boolean(),
});

export const Picture = v.strictObject({
  id: Id,
  name: Text,
  kind: v.picklist(['standing', 'hanging']),
  view: View,
  /** Pixels of the upright picture. */
  width: v.pipe(v.number(), v.integer(), v.minValue(1)),
  height: v.pipe(v.number(), v.integer(), v.minValue(1)),
  /** Camera to the truck's center plane. */
  distance: GivenLength,
  /** How far the view may be off square, standard of two angles; and, hanging, how far the truck may twist. */
  oblique: GivenAngle,
  twist: GivenAngle,
  markPlusMinus: GivenPixels,
  /** Hanging pictures only: the hook the string is tied to, and whether the suspension was locked. */
  hook: v.nullable(Id),
  suspension: v.picklist(['locked', 'free']),
  marks: v.array(Mark),
  /** false when the reader set this picture aside; it is kept with its reason. */
  counted: v.boolean(),
  note: Text,
});

export const AxleScales = v.strictObject({
  id: Id,
  kind: v.literal('axle scales'),
  front: GivenMass,
  rear: GivenMass,
  counted: v.boolean(),
  note: Text,
});

export const WheelScales = v.strictObject({
  id: Id,
  kind: v.literal('wheel scales'),
  frontLeft: GivenMass,
  frontRight: GivenMass,
  rearLeft: GivenMass,
  rearRight: GivenMass,
  counted: v.boolean(),
  note: Text,
});

export const Reading = v.variant('kind', [AxleScales, WheelScales]);

/** One dated state of the truck. Only what belongs to one state is computed together. */
export const BuildState = v.strictObject({
  id: Id,
  name: Text,
  /** YYYY-MM-DD, or '' while not set. */
  date: v.pipe(v.string(), v.regex(/^(\d{4}-\d{2}-\d{2})?$/)),
  dimensions: Dimensions,
  mass: GivenMass,
  /** Axle, wheels, tires and half the links; not what an axle scale reads. Empty: from the parts list, else a default. */
  unsprungFront: GivenMass,
  unsprungRear: GivenMass,
  /** Lateral place of the CG where no wheel scales say: assumed, with its ±. */
  lateral: GivenLength,
  parts: v.array(Part),
  bodyMarks: v.pipe(v.array(BodyMark), v.maxLength(6)),
  hooks: v.array(Hook),
  /** How far the visible hubs stand from the center plane; and the two points of known distance, if used. */
  hubDepth: GivenLength,
  scaleFrom: v.picklist(['wheelbase', 'two points']),
  scaleDistance: GivenLength,
  scaleDepth: GivenLength,
  pictures: v.array(Picture),
  readings: v.array(Reading),
  note: Text,
});

export const BenchSheet = v.strictObject({
  format: v.literal(SHEET_FORMAT),
  version: v.literal(SHEET_VERSION),
  id: Id,
  name: Text,
  /** true for the demo truck that ships with the workbook, until the reader makes it their own. */
  demo: v.boolean(),
  states: v.pipe(v.array(BuildState), v.minLength(1)),
  openState: Id,
  /** The reader's guesses and what they have read, by page address ("3/B", "5/E"). */
  guesses: v.record(v.string(), v.strictObject({ text: Typed, unit: Typed })),
  read: v.array(v.pipe(v.string(), v.maxLength(40))),
  note: Text,
});

export type Given = {
  readonly text: string;
  readonly unit: string;
  readonly plusMinus: string;
  readonly kind: v.InferOutput<typeof PlusMinusKind>;
};
export type GivenLength = v.InferOutput<typeof GivenLength>;
export type GivenMass = v.InferOutput<typeof GivenMass>;
export type GivenAngle = v.InferOutput<typeof GivenAngle>;
export type GivenPixels = v.InferOutput<typeof GivenPixels>;
export type GivenShare = v.InferOutput<typeof GivenShare>;
export type View = v.InferOutput<typeof View>;
export type Carrier = v.InferOutput<typeof Carrier>;
export type Dimensions = v.InferOutput<typeof Dimensions>;
export type Part = v.InferOutput<typeof Part>;
export type BodyMark = v.InferOutput<typeof BodyMark>;
export type Hook = v.InferOutput<typeof Hook>;
export type MarkRole = v.InferOutput<typeof MarkRole>;
export type Mark = v.InferOutput<typeof Mark>;
export type Picture = v.InferOutput<typeof Picture>;
export type AxleScales = v.InferOutput<typeof AxleScales>;
export type WheelScales = v.InferOutput<typeof WheelScales>;
export type Reading = v.InferOutput<typeof Reading>;
export type BuildState = v.InferOutput<typeof BuildState>;
export type BenchSheet = v.InferOutput<typeof BenchSheet>;
