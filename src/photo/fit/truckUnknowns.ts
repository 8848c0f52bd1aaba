import { COVERAGE, prior } from '../../physics';
import type { Estimate } from '../../physics';
import type { View } from '../../sheet/schema';
import { TRUCK_IN_VIEW } from '../views';
import { RADIUS_UNREAD, TRACK_UNREAD } from './givens';
import type { TirePoint, TruckGivens } from './givens';
import type { Coordinate } from './sightings';
import { ruled } from './unknowns';
import type { Gathering } from './unknowns';

/** The sizes of the truck that all pictures share, and the places that are made of them. */

export interface TruckUnknowns {
  readonly rulerZero: number;
  readonly wheelbase: number;
  readonly frontRadius: number;
  readonly rearRadius: number;
  readonly hubDepth: number;
  readonly lateral: number;
  readonly frontShare: number;
  readonly rearShare: number;
  /** Null while no picture shows the tires apart. */
  readonly frontTrack: number | null;
  readonly rearTrack: number | null;
}

/** A place in truck axes: sums of unknowns, each along one axis. */
export interface TruckCoordinate {
  readonly axis: 'x' | 'y' | 'z';
  readonly unknown: number;
  readonly factor?: number;
}
export type TruckPlace = readonly TruckCoordinate[];

/** A worn end and the way a ruler is held: a third of a millimeter, 19 times in 20 (common practice). */
const USUAL_RULER_ZERO: Estimate = { value: 0, u: 0.0003 / COVERAGE };
/** An object's own axes run through its two points: nothing to measure there, m. */
const EXACT = 1e-7;

/** Adds the sizes, each with what was measured of it. */
export function addTruck(g: Gathering, truck: TruckGivens, tiresSeen: boolean): TruckUnknowns {
  const zero = truck.rulerZero ?? USUAL_RULER_ZERO;
  const rulerZero = g.length('ruler zero', zero.value);
  g.observe('ruler', prior('ruler zero', rulerZero, zero.value, zero.u));
  const wheelbase = g.length('wheelbase', truck.wheelbase.value - zero.value);
  g.observe('wheelbase and scale', ruled('wheelbase', wheelbase, rulerZero, truck.wheelbase));
  const radius = (which: 'front' | 'rear', given: Estimate | undefined) => {
    const name = `${which} tire radius`;
    if (truck.axes === 'own') {
      const index = g.length(name, 0);
      g.observe('ground and tire radius', prior(name, index, 0, EXACT));
      return index;
    }
    const index = g.length(name, given ? given.value - zero.value : RADIUS_UNREAD.value);
    g.observe(
      'ground and tire radius',
      given ? ruled(name, index, rulerZero, given) : prior(name, index, RADIUS_UNREAD.value, RADIUS_UNREAD.u),
    );
    return index;
  };
  const frontRadius = radius('front', truck.frontTireRadius);
  const rearRadius = radius('rear', truck.rearTireRadius);
  const hubDepth = g.length('hub depth', truck.hubDepth.value);
  g.observe('depths', prior('hub depth', hubDepth, truck.hubDepth.value, truck.hubDepth.u));
  const lateral = g.length('lateral place of the CG', truck.lateral.value);
  g.observe('lateral place', prior('lateral place', lateral, truck.lateral.value, truck.lateral.u));
  const share = (name: string, { value, u }: Estimate) => {
    const index = g.add(name, value, 0.05, 1e-7);
    g.observe('droop', prior(name, index, value, Math.max(u, 1e-6)));
    return index;
  };
  const frontShare = share('front axle mass share', truck.frontMassShare);
  const rearShare = share('rear axle mass share', truck.rearMassShare);
  const track = (which: 'front' | 'rear', given: Estimate | undefined) => {
    if (!tiresSeen) return null;
    const name = `${which} track`;
    const index = g.length(name, given ? given.value - zero.value : TRACK_UNREAD.value);
    g.observe(
      'wheelbase and scale',
      given ? ruled(name, index, rulerZero, given) : prior(name, index, TRACK_UNREAD.value, TRACK_UNREAD.u),
    );
    return index;
  };
  return {
    rulerZero,
    wheelbase,
    frontRadius,
    rearRadius,
    hubDepth,
    lateral,
    frontShare,
    rearShare,
    frontTrack: track('front', truck.frontTrack),
    rearTrack: track('rear', truck.rearTrack),
  };
}

/** A hub as a picture from a side shows it: the one on that side. */
export function hubPlace(t: TruckUnknowns, which: 'front' | 'rear', view: View): TruckPlace {
  const side = view === 'left' ? 1 : -1;
  const front = which === 'front';
  return [
    ...(front ? [{ axis: 'x', unknown: t.wheelbase } as const] : []),
    { axis: 'z', unknown: front ? t.frontRadius : t.rearRadius },
    { axis: 'y', unknown: t.hubDepth, factor: side },
  ];
}

/** Where a tire's foot, or the top of its tread, is seen; null where the track has no say yet. */
export function tirePlace(t: TruckUnknowns, point: TirePoint, view: View): TruckPlace | null {
  const onFoot = point === 'ground left' || point === 'ground right';
  const front = onFoot ? view === 'front' : point.includes('front');
  const track = front ? t.frontTrack : t.rearTrack;
  if (track === null) return null;
  const radius = front ? t.frontRadius : t.rearRadius;
  return [
    ...(front ? [{ axis: 'x', unknown: t.wheelbase } as const] : []),
    { axis: 'y', unknown: track, factor: point.endsWith('left') ? 0.5 : -0.5 },
    ...(onFoot ? [] : [{ axis: 'z', unknown: radius, factor: 2 } as const]),
  ];
}

/** A place in truck axes as a picture sees it. */
export const inView = (view: View, place: TruckPlace): Coordinate[] =>
  place.map(({ axis, unknown, factor = 1 }) => {
    const [along, sign] = TRUCK_IN_VIEW[view][axis];
    return { unknown, axis: along, factor: sign * factor };
  });
