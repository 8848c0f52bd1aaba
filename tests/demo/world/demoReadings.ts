import type { BuildState, Change, Given, Hook, Reading } from '../../../src/sheet/schema';
import {
  balancePlace,
  downString,
  firstWheelSlope,
  liftTruck,
  sliderEye,
  tipSlope,
  type Downhill,
} from './benchwork';
import { random, type Random } from './random';
import type { WorldHook, WorldTruck } from './truck';
import type { Vector } from './vector';
import { add, scale } from './vector';

/** The demo's readings beside scales and pictures: what the invented truck shows, read off a little wrong. */

type Unit<U extends string> = Omit<Given, 'unit'> & { unit: U };
export const given = <U extends string>(text: string, unit: U, plusMinus = ''): Unit<U> => ({
  text,
  unit,
  plusMinus,
  kind: 'expanded',
});

/** How far outside of their centers the tires bear when the truck goes over, as a part of the tread. */
const BEARING = 0.2;
const DEGREES = 180 / Math.PI;

/** What a careful builder reads off, each number a little wrong and as fine as the instrument shows it. */
class Eye {
  /** The level's own zero is off by the same in all its readings. */
  private readonly levelOff: number;

  constructor(private readonly draw: Random) {
    this.levelOff = 0.08 * draw.normal();
  }

  private near(value: number, step: number): string {
    return String(Number((Math.round(value / step) * step).toFixed(1)));
  }
  /** Ruler, to half a millimeter. */
  millimeters(meters: number, u: number): string {
    return this.near(1000 * meters + u * this.draw.normal(), 0.5);
  }
  /** Kitchen scale in steps of a gram. */
  grams(kilograms: number): string {
    return this.near(1000 * kilograms + this.draw.between(-2, 2), 1);
  }
  /** Phone level, to a tenth of a degree. */
  degrees(radians: number, u: number): string {
    return this.near(radians * DEGREES + this.levelOff + u * this.draw.normal(), 0.1);
  }
}

const counted = (id: string, note = '') => ({ id, counted: true, note });

const lift = (
  id: string,
  raised: 'front axle' | 'rear axle',
  by: { readonly rise: string } | { readonly angle: string },
  load: string,
  note: string,
): Reading => ({
  ...counted(id, note),
  kind: 'axle lift',
  raised,
  scaleUnder: raised === 'front axle' ? 'rear axle' : 'front axle',
  by: 'rise' in by ? 'height' : 'angle',
  rise: given('rise' in by ? by.rise : '', 'mm'),
  angle: given('angle' in by ? by.angle : '', 'deg'),
  load: given(load, 'g'),
  suspension: 'locked',
});

const hangLine = (
  id: string,
  view: 'side' | 'rear',
  hook: string,
  string: { readonly ahead: string; readonly height: string } | { readonly angle: string },
): Reading => ({
  ...counted(id),
  kind: 'hang line',
  view,
  hook,
  by: 'angle' in string ? 'angle' : 'second point',
  ahead: given('ahead' in string ? string.ahead : '', 'mm'),
  left: given('', 'mm'),
  height: given('height' in string ? string.height : '', 'mm'),
  angle: given('angle' in string ? string.angle : '', 'deg'),
  suspension: 'locked',
  frontDroop: given('', 'mm'),
  rearDroop: given('', 'mm'),
});

const board = (
  id: string,
  toward: Downhill,
  event: 'tips, suspension locked' | 'first wheel lifts',
  angle: string,
  note = '',
): Reading => ({ ...counted(id, note), kind: 'tilt board', toward, event, angle: given(angle, 'deg') });

/** The eye in the slider, as ruled by the reader. */
export const ruledSliderEye = (truck: WorldTruck, cameras: number): Hook => {
  const eye = new Eye(random(cameras, 'slider'));
  const { id, name, carrier, place } = sliderEye(truck);
  return {
    id,
    name,
    carrier,
    source: 'ruler',
    ahead: given(eye.millimeters(place[0], 0.5), 'mm'),
    height: given(eye.millimeters(place[2], 0.5), 'mm'),
    left: given(eye.millimeters(place[1], 0.8), 'mm', '3'),
  };
};

/** One reading of every kind beside the scales, suspension locked, and one that tells another thing. */
export const everyReading = (truck: WorldTruck, cameras: number): Reading[] => {
  const eye = new Eye(random(cameras, 'every reading'));
  const outward = BEARING * truck.treadWidth;
  const noseUp = liftTruck(truck, { raised: 'front', rise: 0.12, suspension: 'locked' });
  const noseDown = liftTruck(truck, { raised: 'rear', rise: 0.11, suspension: 'locked' });
  const tips = (toward: Downhill): string => eye.degrees(tipSlope(truck, toward, outward), 0.3);
  const down = downString(truck, sliderEye(truck));
  return [
    lift(
      'lift-front',
      'front axle',
      { rise: eye.millimeters(0.12, 0.4) },
      eye.grams(noseUp.rear),
      'Front wheels on a box, struts in, brakes released.',
    ),
    lift(
      'lift-rear',
      'rear axle',
      { angle: eye.degrees(-noseDown.slope, 0.1) },
      eye.grams(noseDown.front),
      'Rear wheels on a box; the level lay on the frame rail.',
    ),
    board('board-left', 'left', 'tips, suspension locked', tips('left')),
    board('board-right', 'right', 'tips, suspension locked', tips('right')),
    board('board-nose-up', 'nose up', 'tips, suspension locked', tips('nose up')),
    board(
      'board-first-wheel',
      'left',
      'first wheel lifts',
      eye.degrees(firstWheelSlope(truck, 'left', outward), 0.3),
      'The uphill rear wheel came off first; the truck went over a little later.',
    ),
    hangLine('hang-slider', 'rear', 'slider', { angle: eye.degrees(Math.atan2(down[1], -down[2]), 0.2) }),
    {
      ...counted('balance', 'On the edge of a steel ruler, frame rails level.'),
      kind: 'balance on an edge',
      edge: 'across the truck',
      place: given(eye.millimeters(balancePlace(truck), 1), 'mm'),
    },
  ];
};

/** Soft springs on trial: their rate over the usual one's. The ride height is set as before. */
const SOFT = 0.28;

/** Readings of the state whose lift was made on live springs. */
export const strapsForgotten = (
  truck: WorldTruck,
  hooks: readonly WorldHook[],
  cameras: number,
): Reading[] => {
  const eye = new Eye(random(cameras, 'straps forgotten'));
  const outward = BEARING * truck.treadWidth;
  const { front, rear } = truck.suspension;
  const soft: WorldTruck = {
    ...truck,
    suspension: {
      front: { ...front, rate: SOFT * front.rate },
      rear: { ...rear, rate: SOFT * rear.rate },
    },
  };
  const sagging = liftTruck(soft, { raised: 'rear', rise: 0.12, suspension: 'free' });
  const tips = (toward: Downhill): string => eye.degrees(tipSlope(truck, toward, outward), 0.3);
  return [
    lift(
      'lift',
      'rear axle',
      { rise: eye.millimeters(0.12, 0.4) },
      eye.grams(sagging.front),
      'Rear wheels on a box.',
    ),
    ...hooks.map((hook) => {
      // Far enough down the string for a ruler to tell its direction.
      const [ahead, , height]: Vector = add(hook.place, scale(downString(truck, hook), 0.12));
      const place = { ahead: eye.millimeters(ahead, 0.6), height: eye.millimeters(height, 0.6) };
      return hangLine(`hang-${hook.id}`, 'side', hook.id, place);
    }),
    board('board-left', 'left', 'tips, suspension locked', tips('left')),
    board('board-right', 'right', 'tips, suspension locked', tips('right')),
    board('board-nose-up', 'nose up', 'tips, suspension locked', tips('nose up')),
  ];
};

const change = (
  id: string,
  name: string,
  kind: Change['kind'],
  grams: number,
  [ahead, left, height]: readonly [string, string, string],
): Change => ({
  id,
  name,
  kind,
  mass: given(String(grams), 'g'),
  ahead: given(ahead, 'mm'),
  left: given(left, 'mm'),
  height: given(height, 'mm'),
});

/** What the builder has in mind. */
export const intendedChanges = (truck: WorldTruck): BuildState['changes'] => {
  const mm = (meters: number): string => String(Math.round(1000 * meters));
  const grams = (id: string): number =>
    Math.round(1000 * truck.parts.filter((part) => part.id === id).reduce((sum, part) => sum + part.mass, 0));
  const spare = truck.parts.find(({ id }) => id === 'spare');
  const { wheelbase, frontRadius, shape } = truck;
  return [
    change('pack-lower', 'Battery pack 40 mm lower', 'moved', grams('pack'), ['', '', '-40']),
    change('wheel-ballast', 'Ballast in the front wheels', 'added', 124, [
      mm(wheelbase),
      '0',
      mm(frontRadius),
    ]),
    ...(spare
      ? [
          change('spare-off', 'Spare wheel off the bed', 'added', -grams('spare'), [
            mm(spare.place[0]),
            mm(spare.place[1]),
            mm(spare.place[2]),
          ]),
        ]
      : []),
    change('skid-plate', 'Brass skid plate', 'added', 85, [mm(wheelbase / 2), '0', mm(shape.sill - 0.019)]),
  ];
};
