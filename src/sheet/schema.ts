import * as v from 'valibot';

/**
 * The bench sheet: everything known of one truck, as the reader typed it. One version of the schema; older
 * versions are lifted to it in migrations.ts before validation.
 *
 * Numbers are kept as typed text beside their unit, so that "12.3 in" stays 12.3 in and an entry that cannot be
 * read yet is not lost. readGiven() in given.ts turns a Given into SI or says what is wrong with it.
 */

export const SHEET_FORMAT = 'plumb-low-bench-sheet';
export const SHEET_VERSION = 3;

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

/** Side of the truck the camera stood on, or hung over. */
export const View = v.picklist(['left', 'right', 'rear', 'front', 'top']);
export const Carrier = v.picklist(['body', 'front axle', 'rear axle']);
export const Axle = v.picklist(['front axle', 'rear axle']);
export const Suspension = v.picklist(['locked', 'free']);

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
  /** How far the landmark lies from the truck's center plane, toward the camera of the side pictures. */
  depth: GivenLength,
  /** Place by ruler, of which pictures seen from the rear, the front or the top need the depth; '' while unknown. */
  ahead: GivenLength,
  height: GivenLength,
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
 * 'scale 1' and 'scale 2' are the two points of known distance, where the scale does not come from the hubs; of an
 * object without wheels they are its own axes: origin at the first, first axis toward the second. 'base 1' and
 * 'base 2' are the outermost points it stands on. 'ground left' and 'ground right' are the feet of the two near tires
 * seen from the rear or the front; 'tire …' the middles of the treads seen from the top.
 */
export const MarkRole = v.union([
  v.picklist([
    'front hub',
    'rear hub',
    'ground front',
    'ground rear',
    'ground left',
    'ground right',
    'tire front left',
    'tire front right',
    'tire rear left',
    'tire rear right',
    'base 1',
    'base 2',
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
  /** 'found' where the picture's own edges placed it, with its own ±; 'hand' as soon as the reader moves it. */
  source: v.picklist(['hand', 'found']),
});

export const Picture = v.strictObject({
  id: Id,
  name: Text,
  /** 'unsorted' until the reader says what it shows; it does not count until then. */
  kind: v.picklist(['standing', 'hanging', 'unsorted']),
  view: View,
  /** Pixels of the upright picture. */
  width: v.pipe(v.number(), v.integer(), v.minValue(1)),
  height: v.pipe(v.number(), v.integer(), v.minValue(1)),
  /** Camera to the truck's middle. */
  distance: GivenLength,
  /** Focal length as that of a 35 mm camera (EXIF tag A405); '' while unknown. */
  focalLength: GivenLength,
  /** How far the view may be off square, standard of two angles; and, hanging, how far the truck may twist. */
  oblique: GivenAngle,
  twist: GivenAngle,
  markPlusMinus: GivenPixels,
  /** Hanging pictures only: the hook the string is tied to, and whether the suspension was locked. */
  hook: v.nullable(Id),
  suspension: Suspension,
  marks: v.array(Mark),
  /** false when the reader set this picture aside; it is kept with its reason. */
  counted: v.boolean(),
  note: Text,
});

/** What every reading has beside its numbers. */
const ofReading = {
  id: Id,
  /** false when the reader set this reading aside; it is kept with its reason in the note. */
  counted: v.boolean(),
  note: Text,
};

/** The whole truck on one scale. */
export const TotalMass = v.strictObject({ ...ofReading, kind: v.literal('total mass'), load: GivenMass });

export const AxleScales = v.strictObject({
  ...ofReading,
  kind: v.literal('axle scales'),
  front: GivenMass,
  rear: GivenMass,
});

export const WheelScales = v.strictObject({
  ...ofReading,
  kind: v.literal('wheel scales'),
  frontLeft: GivenMass,
  frontRight: GivenMass,
  rearLeft: GivenMass,
  rearRight: GivenMass,
});

/** One axle raised, the other or both on scales. */
export const AxleLift = v.strictObject({
  ...ofReading,
  kind: v.literal('axle lift'),
  raised: Axle,
  /** The axle whose wheels stand on the scale that is read. */
  scaleUnder: Axle,
  /** How the lift was measured: rise of the raised hubs above where they stood, or slope of the truck. */
  by: v.picklist(['height', 'angle']),
  rise: GivenLength,
  angle: GivenAngle,
  load: GivenMass,
  suspension: Suspension,
});

/** A hang measured without a picture: hook, and a second point of the string's line or the truck's slope. */
export const HangLine = v.strictObject({
  ...ofReading,
  kind: v.literal('hang line'),
  /** The plane in which the line was read: side ahead-up, rear and front left-up, top ahead-left. */
  view: v.picklist(['side', 'rear', 'front', 'top']),
  hook: v.nullable(Id),
  by: v.picklist(['second point', 'angle']),
  /** Second point, truck axes; only the two that the view shows are used. */
  ahead: GivenLength,
  left: GivenLength,
  height: GivenLength,
  /**
   * Slope of the truck as it hangs. Side and top: nose below level; rear and front: left side below level. In the top
   * view the truck hangs on its side, its right side down; with the left side down, type the slope and a second point
   * instead.
   */
  angle: GivenAngle,
  suspension: Suspension,
  /** With free suspension: how far each axle dropped from ride height, along the truck's own up-down. */
  frontDroop: GivenLength,
  rearDroop: GivenLength,
});

/** A board raised until something happens. Only a rigid tip tells the height. */
export const TiltBoard = v.strictObject({
  ...ofReading,
  kind: v.literal('tilt board'),
  /** Over which wheels it goes: left and right with the truck across the slope, nose up over the rear tires. */
  toward: v.picklist(['left', 'right', 'nose up', 'nose down']),
  event: v.picklist(['tips, suspension locked', 'tips, suspension free', 'first wheel lifts', 'slides']),
  angle: GivenAngle,
});

/** The truck laid over a straight edge, level, until it balances. */
export const BalanceOnEdge = v.strictObject({
  ...ofReading,
  kind: v.literal('balance on an edge'),
  edge: v.picklist(['across the truck', 'along the truck']),
  /** Edge across: ahead of the rear axle. Edge along: left of center. */
  place: GivenLength,
});

export const Reading = v.variant('kind', [
  TotalMass,
  AxleScales,
  WheelScales,
  AxleLift,
  HangLine,
  TiltBoard,
  BalanceOnEdge,
]);

/** What all readings of one instrument share: what it shows where it should show zero, and how sure that is. */
export const Instruments = v.strictObject({
  scaleZero: GivenMass,
  rulerZero: GivenLength,
  levelZero: GivenAngle,
});

/** A change the reader intends or has made: a mass moved by, or added at, a place. */
export const Change = v.strictObject({
  id: Id,
  name: Text,
  kind: v.picklist(['moved', 'added']),
  mass: GivenMass,
  ahead: GivenLength,
  left: GivenLength,
  height: GivenLength,
});

/** One dated state of the truck. Only what belongs to one state is computed together. */
export const BuildState = v.strictObject({
  id: Id,
  name: Text,
  /** What is measured: a truck on its wheels, or any object, with axes of its own and no ground. */
  body: v.picklist(['truck', 'object']),
  /** YYYY-MM-DD, or '' while not set. */
  date: v.pipe(v.string(), v.regex(/^(\d{4}-\d{2}-\d{2})?$/)),
  dimensions: Dimensions,
  /** Axle, wheels, tires and half the links; not what an axle scale reads. Empty: from the parts list, else a default. */
  unsprungFront: GivenMass,
  unsprungRear: GivenMass,
  /** Lateral place of the CG before anything is measured: assumed, with its ±. */
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
  instruments: Instruments,
  /** true when the parts list counts as a reading of mass and center of gravity. */
  countPartsList: v.boolean(),
  changes: v.array(Change),
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
export type Axle = v.InferOutput<typeof Axle>;
export type Suspension = v.InferOutput<typeof Suspension>;
export type TotalMass = v.InferOutput<typeof TotalMass>;
export type AxleScales = v.InferOutput<typeof AxleScales>;
export type WheelScales = v.InferOutput<typeof WheelScales>;
export type AxleLift = v.InferOutput<typeof AxleLift>;
export type HangLine = v.InferOutput<typeof HangLine>;
export type TiltBoard = v.InferOutput<typeof TiltBoard>;
export type BalanceOnEdge = v.InferOutput<typeof BalanceOnEdge>;
export type Instruments = v.InferOutput<typeof Instruments>;
export type Change = v.InferOutput<typeof Change>;
export type Reading = v.InferOutput<typeof Reading>;
export type BuildState = v.InferOutput<typeof BuildState>;
export type BenchSheet = v.InferOutput<typeof BenchSheet>;
