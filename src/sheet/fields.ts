import type { GivenField, Typed } from './given';

/**
 * Every field of the bench sheet: what may be typed, what is believable, and what holds while nothing is typed.
 * Believable ranges, common values and default ± are common practice for 1:10 trail trucks, to be overtyped; none
 * of them is a published truth. Every ± holds 19 times in 20, except where its kind says hard limits.
 */

const mm = (number: number): Typed => ({ number, unit: 'mm' });
const m = (number: number): Typed => ({ number, unit: 'm' });
const g = (number: number): Typed => ({ number, unit: 'g' });
const kg = (number: number): Typed => ({ number, unit: 'kg' });
const deg = (number: number): Typed => ({ number, unit: 'deg' });

const because = (typed: Typed, reason: string) => ({ ...typed, reason });
const within = (typed: Typed, reason: string) => ({ ...typed, kind: 'expanded' as const, reason });
const limits = (typed: Typed, reason: string) => ({ ...typed, kind: 'limits' as const, reason });

const RULER = 'a steel ruler, read at both ends';
const SCALE = 'kitchen scales show steps of 1 to 5 g and stick a little';

const track = (which: 'Front' | 'Rear'): GivenField<'length'> => ({
  label: `${which} track`,
  dimension: 'length',
  limits: { above: mm(0), most: m(2) },
  believable: [mm(170), mm(205)],
  often: mm(186),
  whenEmpty: null,
  plusMinus: within(mm(2), 'the middle of a tire is judged by eye'),
  next: 'Measure tire center to tire center, often 186 mm.',
});

const tireRadius = (which: 'Front' | 'Rear'): GivenField<'length'> => ({
  label: `${which} tire radius`,
  dimension: 'length',
  limits: { above: mm(0), most: m(1) },
  believable: [mm(42), mm(62)],
  often: mm(55),
  whenEmpty: null,
  plusMinus: within(mm(1.5), 'tires squash, and the hub’s middle is judged by eye'),
  next: 'Measure from the ground to the middle of the hub, truck standing, often 55 mm.',
});

const unsprung = (which: 'Front' | 'Rear'): GivenField<'mass'> => ({
  label: `${which} unsprung mass`,
  dimension: 'mass',
  limits: { above: g(0), most: kg(50) },
  believable: [g(200), g(1300)],
  often: null,
  whenEmpty: null,
  plusMinus: within(g(40), 'how much of the links counts is an estimate'),
  next: 'Weigh axle, wheels, tires and half the links together, or leave it empty.',
});

const axle = (which: 'Front' | 'Rear'): GivenField<'mass'> => ({
  label: `${which} axle on scales`,
  dimension: 'mass',
  limits: { above: g(0), most: kg(50) },
  believable: [g(700), g(2700)],
  often: null,
  whenEmpty: null,
  plusMinus: limits(g(5), SCALE),
  next: 'Read the scale with both wheels of this axle on it, truck level and brakes released.',
});

const wheel = (which: string): GivenField<'mass'> => ({
  label: `${which} wheel on scales`,
  dimension: 'mass',
  limits: { least: g(0), most: kg(50) },
  believable: [g(250), g(1500)],
  often: null,
  whenEmpty: null,
  plusMinus: limits(g(5), SCALE),
  next: 'Read the scale under this wheel, truck level and all four on scales of one height.',
});

export const FIELDS = {
  wheelbase: {
    label: 'Wheelbase',
    dimension: 'length',
    limits: { above: mm(0), most: m(3) },
    believable: [mm(242), mm(324)],
    often: mm(313),
    whenEmpty: null,
    plusMinus: within(mm(1), RULER),
    next: 'Measure hub to hub, often 313 mm.',
  },
  frontTrack: track('Front'),
  rearTrack: track('Rear'),
  outsideWidth: {
    label: 'Outside width',
    dimension: 'length',
    limits: { above: mm(0), most: m(3) },
    believable: [mm(200), mm(250)],
    often: mm(231),
    whenEmpty: null,
    plusMinus: within(mm(2), 'tires bulge, and a ruler is held beside them'),
    next: 'Measure over the outer faces of the tires, often 231 mm.',
  },
  treadWidth: {
    label: 'Tread width',
    dimension: 'length',
    limits: { above: mm(0), most: m(1) },
    believable: [mm(25), mm(60)],
    often: mm(45),
    whenEmpty: null,
    plusMinus: within(mm(3), 'where the tread ends and the shoulder begins is a judgment'),
    next: 'Measure across the tread where it meets the ground, often 45 mm.',
  },
  frontTireRadius: tireRadius('Front'),
  rearTireRadius: tireRadius('Rear'),
  mass: {
    label: 'Mass',
    dimension: 'mass',
    limits: { above: g(0), most: kg(100) },
    believable: [kg(2), kg(4.2)],
    often: kg(2.9),
    whenEmpty: null,
    plusMinus: limits(g(5), SCALE),
    next: 'Weigh the truck ready to drive, often 2900 g.',
  },
  unsprungFront: unsprung('Front'),
  unsprungRear: unsprung('Rear'),
  lateral: {
    label: 'CG left of center',
    dimension: 'length',
    limits: { least: mm(-300), most: mm(300) },
    believable: [mm(-15), mm(15)],
    often: null,
    whenEmpty: because(mm(0), 'assumed on the center plane until the wheels are weighed one by one'),
    plusMinus: within(mm(10), 'trucks weighed wheel by wheel stand 2 to 6 mm off center'),
    next: 'Leave it empty to assume the center, or weigh all four wheels.',
  },
  hubDepth: {
    label: 'Hub depth',
    dimension: 'length',
    limits: { least: mm(0), most: m(1) },
    believable: [mm(75), mm(130)],
    often: null,
    whenEmpty: because(mm(105), 'visible hubs sit a little inside the outer faces of the tires'),
    plusMinus: within(mm(15), 'wheels are dished differently'),
    next: 'Measure from the center plane out to the marked point of the hub, often 105 mm.',
  },
  scaleDistance: {
    label: 'Distance of the two points',
    dimension: 'length',
    limits: { above: mm(0), most: m(5) },
    believable: [mm(100), mm(600)],
    often: null,
    whenEmpty: null,
    plusMinus: within(mm(1), RULER),
    next: 'Measure between the two marked points, the farther apart the better.',
  },
  scaleDepth: {
    label: 'Depth of the two points',
    dimension: 'length',
    limits: { least: m(-1), most: m(1) },
    believable: [mm(-130), mm(130)],
    often: null,
    whenEmpty: because(mm(90), 'a body’s visible side stands 80 to 100 mm from the center plane'),
    plusMinus: within(mm(20), 'a usual place, not measured'),
    next: 'Measure from the center plane toward the camera, often 90 mm.',
  },
  partMass: {
    label: 'Part, mass',
    dimension: 'mass',
    limits: { least: kg(-100), most: kg(100), notZero: true },
    believable: [kg(-2), kg(2)],
    often: null,
    whenEmpty: null,
    plusMinus: limits(g(2), 'kitchen scales show steps of 1 g or better for small parts'),
    next: 'Weigh the part; a removed part has a negative mass.',
  },
  partAhead: {
    label: 'Part, ahead of the rear axle',
    dimension: 'length',
    limits: { least: m(-2), most: m(4) },
    believable: [mm(-150), mm(500)],
    often: null,
    whenEmpty: null,
    plusMinus: within(mm(5), 'the middle of a part is judged by eye'),
    next: 'Measure from the rear axle forward to the middle of the part; behind it is negative.',
  },
  partLeft: {
    label: 'Part, left of center',
    dimension: 'length',
    limits: { least: m(-2), most: m(2) },
    believable: [mm(-130), mm(130)],
    often: null,
    whenEmpty: because(mm(0), 'taken as on the center plane'),
    plusMinus: within(mm(5), 'the middle of a part is judged by eye'),
    next: 'Measure from the center plane; to the right is negative.',
  },
  partHeight: {
    label: 'Part, above ground',
    dimension: 'length',
    limits: { least: mm(0), most: m(2) },
    believable: [mm(20), mm(300)],
    often: null,
    whenEmpty: null,
    plusMinus: within(mm(5), 'the middle of a part is judged by eye'),
    next: 'Measure from the ground to the middle of the part, truck at ride height.',
  },
  markDepth: {
    label: 'Body mark, depth',
    dimension: 'length',
    limits: { least: m(-1), most: m(1) },
    believable: [mm(-130), mm(130)],
    often: null,
    whenEmpty: because(mm(90), 'a body’s visible side stands 80 to 100 mm from the center plane'),
    plusMinus: within(mm(20), 'a usual place, not measured'),
    next: 'Measure from the center plane toward the camera, often 90 mm.',
  },
  hookAhead: {
    label: 'Hook, ahead of the rear axle',
    dimension: 'length',
    limits: { least: m(-2), most: m(4) },
    believable: [mm(-150), mm(500)],
    often: null,
    whenEmpty: null,
    plusMinus: within(mm(1.5), 'a ruler held against hub and hook'),
    next: 'Measure from the rear axle forward to where the string bears; behind it is negative.',
  },
  hookHeight: {
    label: 'Hook, above ground',
    dimension: 'length',
    limits: { least: mm(0), most: m(2) },
    believable: [mm(30), mm(300)],
    often: null,
    whenEmpty: null,
    plusMinus: within(mm(1.5), 'a ruler stood on the ground'),
    next: 'Measure from the ground up to where the string bears, truck at ride height.',
  },
  hookLeft: {
    label: 'Hook, left of center',
    dimension: 'length',
    limits: { least: m(-1), most: m(1) },
    believable: [mm(-110), mm(110)],
    often: null,
    whenEmpty: because(mm(0), 'taken as on the center plane'),
    plusMinus: within(mm(5), 'the center plane is judged by eye'),
    next: 'Measure from the center plane; to the right is negative.',
  },
  distance: {
    label: 'Camera distance',
    dimension: 'length',
    limits: { least: m(0.2), most: m(50) },
    believable: [m(0.8), m(4)],
    often: null,
    whenEmpty: because(m(1.5), 'two steps back, the usual place'),
    plusMinus: within(m(0.98), 'a usual place, not measured'),
    next: 'Measure from the phone to the middle of the truck, often 1.5 m.',
  },
  oblique: {
    label: 'View off square',
    dimension: 'angle',
    limits: { least: deg(-45), most: deg(45) },
    believable: [deg(-10), deg(10)],
    often: null,
    whenEmpty: because(deg(0), 'meant to be square'),
    plusMinus: within(deg(5.9), 'by eye a view is square to about 3°, two times in three'),
    next: 'Leave it empty if the camera looked square at the side.',
  },
  twist: {
    label: 'Twist on the string',
    dimension: 'angle',
    limits: { least: deg(-45), most: deg(45) },
    believable: [deg(-10), deg(10)],
    often: null,
    whenEmpty: because(deg(0), 'turned square to the camera by hand'),
    plusMinus: within(deg(5.9), 'a hanging truck stays square to about 3°, two times in three'),
    next: 'Leave it empty if the truck hung square to the camera.',
  },
  markPlusMinus: {
    label: 'Marks, ±',
    dimension: 'pixels',
    limits: { above: { number: 0, unit: 'px' }, most: { number: 500, unit: 'px' } },
    believable: [
      { number: 0.3, unit: 'px' },
      { number: 10, unit: 'px' },
    ],
    often: null,
    whenEmpty: because({ number: 2, unit: 'px' }, 'a mark set in the loupe'),
    plusMinus: null,
    next: 'Leave it empty for the usual ± 2 px.',
  },
  axleFront: axle('Front'),
  axleRear: axle('Rear'),
  wheelFrontLeft: wheel('Front left'),
  wheelFrontRight: wheel('Front right'),
  wheelRearLeft: wheel('Rear left'),
  wheelRearRight: wheel('Rear right'),
  guessHeight: {
    label: 'Your guess',
    dimension: 'length',
    limits: { above: mm(0), most: m(2) },
    believable: [mm(40), mm(200)],
    often: null,
    whenEmpty: null,
    plusMinus: null,
    next: 'Guess a height above ground, or skip.',
  },
  guessAngle: {
    label: 'Your guess',
    dimension: 'angle',
    limits: { above: deg(0), most: deg(90) },
    believable: [deg(20), deg(70)],
    often: null,
    whenEmpty: null,
    plusMinus: null,
    next: 'Guess a slope in degrees, or skip.',
  },
} as const satisfies Record<string, GivenField>;

export type FieldName = keyof typeof FIELDS;
