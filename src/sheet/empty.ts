import {
  SHEET_FORMAT,
  SHEET_VERSION,
  type AxleLift,
  type AxleScales,
  type BalanceOnEdge,
  type BenchSheet,
  type BodyMark,
  type BuildState,
  type Change,
  type HangLine,
  type Hook,
  type Instruments,
  type Part,
  type Picture,
  type TiltBoard,
  type TotalMass,
  type WheelScales,
} from './schema';
import { newId } from './ids';

/** A given not typed yet. Its field's default ± applies (fields.ts). */
export const emptyGiven = <Unit extends string>(unit: Unit) => ({
  text: '',
  unit,
  plusMinus: '',
  kind: 'expanded' as const,
});

export const emptyPart = (): Part => ({
  id: newId(),
  name: '',
  carrier: 'body',
  mass: emptyGiven('g'),
  ahead: emptyGiven('mm'),
  left: emptyGiven('mm'),
  height: emptyGiven('mm'),
});

export const emptyBodyMark = (key: string): BodyMark => ({
  key,
  name: '',
  depth: emptyGiven('mm'),
  ahead: emptyGiven('mm'),
  height: emptyGiven('mm'),
});

export const emptyHook = (): Hook => ({
  id: newId(),
  name: '',
  carrier: 'body',
  source: 'ruler',
  ahead: emptyGiven('mm'),
  height: emptyGiven('mm'),
  left: emptyGiven('mm'),
});

/** A picture without marks. Width and height are pixels of the upright picture as stored. */
export const emptyPicture = (kind: Picture['kind'], width: number, height: number): Picture => ({
  id: newId(),
  name: '',
  kind,
  view: 'right',
  width,
  height,
  distance: emptyGiven('m'),
  focalLength: emptyGiven('mm'),
  oblique: emptyGiven('deg'),
  twist: emptyGiven('deg'),
  markPlusMinus: emptyGiven('px'),
  hook: null,
  suspension: 'locked',
  marks: [],
  counted: true,
  note: '',
});

export const emptyTotalMass = (): TotalMass => ({
  id: newId(),
  kind: 'total mass',
  load: emptyGiven('g'),
  counted: true,
  note: '',
});

export const emptyAxleScales = (): AxleScales => ({
  id: newId(),
  kind: 'axle scales',
  front: emptyGiven('g'),
  rear: emptyGiven('g'),
  counted: true,
  note: '',
});

export const emptyWheelScales = (): WheelScales => ({
  id: newId(),
  kind: 'wheel scales',
  frontLeft: emptyGiven('g'),
  frontRight: emptyGiven('g'),
  rearLeft: emptyGiven('g'),
  rearRight: emptyGiven('g'),
  counted: true,
  note: '',
});

/** The front axle raised, the rear wheels on the scale: the usual way round. */
export const emptyAxleLift = (): AxleLift => ({
  id: newId(),
  kind: 'axle lift',
  raised: 'front axle',
  scaleUnder: 'rear axle',
  by: 'height',
  rise: emptyGiven('mm'),
  angle: emptyGiven('deg'),
  load: emptyGiven('g'),
  suspension: 'locked',
  counted: true,
  note: '',
});

/** A hang in the side view, not yet tied to a hook. */
export const emptyHangLine = (): HangLine => ({
  id: newId(),
  kind: 'hang line',
  view: 'side',
  hook: null,
  by: 'second point',
  ahead: emptyGiven('mm'),
  left: emptyGiven('mm'),
  height: emptyGiven('mm'),
  angle: emptyGiven('deg'),
  suspension: 'locked',
  frontDroop: emptyGiven('mm'),
  rearDroop: emptyGiven('mm'),
  counted: true,
  note: '',
});

export const emptyTiltBoard = (): TiltBoard => ({
  id: newId(),
  kind: 'tilt board',
  toward: 'left',
  event: 'tips, suspension locked',
  angle: emptyGiven('deg'),
  counted: true,
  note: '',
});

export const emptyBalanceOnEdge = (): BalanceOnEdge => ({
  id: newId(),
  kind: 'balance on an edge',
  edge: 'across the truck',
  place: emptyGiven('mm'),
  counted: true,
  note: '',
});

/** Instruments that nothing is said of: their usual zeros hold. */
export const emptyInstruments = (): Instruments => ({
  scaleZero: emptyGiven('g'),
  rulerZero: emptyGiven('mm'),
  levelZero: emptyGiven('deg'),
});

export const emptyChange = (): Change => ({
  id: newId(),
  name: '',
  kind: 'moved',
  mass: emptyGiven('g'),
  ahead: emptyGiven('mm'),
  left: emptyGiven('mm'),
  height: emptyGiven('mm'),
});

export const emptyState = (name = 'As driven'): BuildState => ({
  id: newId(),
  name,
  body: 'truck',
  date: '',
  dimensions: {
    wheelbase: emptyGiven('mm'),
    frontTrack: emptyGiven('mm'),
    rearTrack: emptyGiven('mm'),
    outsideWidth: emptyGiven('mm'),
    treadWidth: emptyGiven('mm'),
    frontTireRadius: emptyGiven('mm'),
    rearTireRadius: emptyGiven('mm'),
  },
  unsprungFront: emptyGiven('g'),
  unsprungRear: emptyGiven('g'),
  lateral: emptyGiven('mm'),
  parts: [],
  bodyMarks: [],
  hooks: [],
  hubDepth: emptyGiven('mm'),
  scaleFrom: 'wheelbase',
  scaleDistance: emptyGiven('mm'),
  scaleDepth: emptyGiven('mm'),
  pictures: [],
  readings: [],
  instruments: emptyInstruments(),
  countPartsList: false,
  changes: [],
  note: '',
});

export function emptySheet(name = 'My truck'): BenchSheet {
  const state = emptyState();
  return {
    format: SHEET_FORMAT,
    version: SHEET_VERSION,
    id: newId(),
    name,
    demo: false,
    states: [state],
    openState: state.id,
    guesses: {},
    read: [],
    note: '',
  };
}
