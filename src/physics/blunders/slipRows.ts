import type { WithoutNumber } from './leaveOut';
import { degrees } from '../quantities';
import type { Measured, TruckBench, TruckReading } from '../estimate/truckReadings';
import { exchanged, mirroredLine, narrowerTracks, otherHooks, otherSide, wrongAxle } from './slipBenches';
import { UNIT_SLIPS } from './unitSlips';

/**
 * Slips that people make at the bench, as a table: which numbers they happen to, and what the number would be without
 * them. A new slip is a new row. Sizes are common practice for 1:10 trail trucks where no other source is named.
 */

/** What a number stands for, as far as slips go. */
export type NumberRole =
  | 'ahead'
  | 'left'
  | 'height'
  | 'rise'
  | 'load'
  | 'track'
  | 'tip line'
  | 'radius'
  | 'wheelbase'
  | 'lift angle'
  | 'hang angle'
  | 'tilt angle'
  | 'droop'
  | 'line'
  | 'other';

/** A number that may be wrong, with what all others say of it. */
export interface Suspected {
  readonly bench: TruckBench;
  readonly id: string;
  readonly role: NumberRole;
  readonly reading: TruckReading | null;
  /** As read, SI. */
  readonly value: number;
  readonly without: WithoutNumber;
}

/** What would be right if the slip was made. */
export type Correction =
  /** The number would be `value`; `u` where the correction itself is uncertain. */
  | { readonly by: 'value'; readonly value: number; readonly u?: number }
  /** The number would lie somewhere between. */
  | { readonly by: 'range'; readonly low: number; readonly high: number }
  /** The bench would be another: several numbers, or what they belong to. */
  | { readonly by: 'bench'; readonly bench: TruckBench; readonly hook?: string };

export interface SlipRow {
  readonly code: string;
  readonly roles: readonly NumberRole[] | 'all';
  /** For the reader, after "This fits": a noun and what was done. */
  readonly sentence: string;
  readonly corrections: (suspected: Suspected) => readonly Correction[];
}

/** A usual battery pack, kg; of it at least so much on one axle or one wheel. */
const PACK = { most: 0.4, whole: 0.15, part: 0.04 } as const;
/** How far a tire reaches beyond its center on both sides, m, where the tread was not measured; u where it was. */
const TREAD = { low: 0.03, high: 0.06, u: 0.002 } as const;
/** A truck on springs goes over so much sooner than a locked one; its first wheel lifts so much sooner than it tips. */
const LIVE_TILT = { least: degrees(1), most: degrees(10) } as const;
const FIRST_WHEEL = degrees(8);
/** A lifted axle on live springs makes the CG look up to so much of its height above the hubs too high. */
const LIVE_LIFT = { least: 0.03, most: 0.5 } as const;

const to = (value: number, u?: number): Correction => ({
  by: 'value',
  value,
  ...(u !== undefined && { u }),
});
const between = (a: number, b: number): Correction => ({
  by: 'range',
  low: Math.min(a, b),
  high: Math.max(a, b),
});
const benches = (all: readonly TruckBench[]): readonly Correction[] =>
  all.map((bench) => ({ by: 'bench', bench }));
const ifNumber = (value: number): readonly Correction[] => (Number.isFinite(value) ? [to(value)] : []);

const radii = ({ bench: { dimensions } }: Suspected): readonly Measured[] =>
  [dimensions.frontTireRadius, dimensions.rearTireRadius].filter((radius) => radius !== undefined);

const isAngle = (reading: TruckReading): boolean => reading.kind === 'hang' && reading.string.by === 'angle';

const ANGLES = ['lift angle', 'hang angle', 'tilt angle'] as const;

export const SLIP_ROWS: readonly SlipRow[] = [
  {
    code: 'axle for ground',
    roles: ['height'],
    sentence: 'a height counted from the axle instead of the ground',
    corrections: (s) => radii(s).map(({ value, u }) => to(s.value + value, u)),
  },
  {
    code: 'ground for axle',
    roles: ['height'],
    sentence: 'a tire radius added to a height that was counted from the ground already',
    corrections: (s) => radii(s).map(({ value, u }) => to(s.value - value, u)),
  },
  {
    code: 'hub height for rise',
    roles: ['rise'],
    sentence: 'the raised hub’s height above the ground instead of its rise above where it stood',
    corrections: (s) => radii(s).map(({ value, u }) => to(s.value - value, u)),
  },
  {
    code: 'rise less a radius',
    roles: ['rise'],
    sentence: 'a tire radius taken off a rise that was counted from where the hub stood already',
    corrections: (s) => radii(s).map(({ value, u }) => to(s.value + value, u)),
  },
  {
    code: 'front axle for rear axle',
    roles: ['ahead'],
    sentence: 'a distance counted from the front axle instead of the rear axle',
    corrections: ({ bench, value }) => {
      const wheelbase = bench.dimensions.wheelbase;
      return wheelbase
        ? [to(wheelbase.value - value, wheelbase.u), to(wheelbase.value + value, wheelbase.u)]
        : [];
    },
  },
  {
    code: 'sine for tangent',
    roles: ANGLES,
    sentence: 'a slope whose rise over wheelbase was taken for the tangent; it is the sine',
    corrections: ({ value }) => ifNumber(Math.asin(Math.tan(value))),
  },
  {
    code: 'tangent for sine',
    roles: ANGLES,
    sentence: 'a slope whose rise over the length along the floor was taken for the sine; it is the tangent',
    corrections: ({ value }) => ifNumber(Math.atan(Math.sin(value))),
  },
  {
    code: 'degrees for percent',
    roles: ANGLES,
    sentence: 'a grade in percent entered as degrees',
    corrections: ({ value }) => [to(Math.atan((value * 180) / Math.PI / 100))],
  },
  {
    code: 'percent for degrees',
    roles: ANGLES,
    sentence: 'an angle in degrees entered as a grade in percent',
    corrections: ({ value }) => [to((Math.tan(value) * 100 * Math.PI) / 180)],
  },
  {
    code: 'upright for level',
    roles: ANGLES,
    sentence: 'an angle counted from upright instead of level',
    corrections: ({ value }) => [to((value < 0 ? -1 : 1) * (Math.PI / 2 - Math.abs(value)))],
  },
  {
    code: 'outside width for track',
    roles: ['track'],
    sentence: 'a width over the tires’ outer faces instead of from tire center to tire center',
    corrections: ({ bench, value }) => {
      const tread = bench.dimensions.treadWidth;
      return tread
        ? [to(value - tread.value, Math.hypot(tread.u, TREAD.u))]
        : [between(value - TREAD.high, value - TREAD.low)];
    },
  },
  {
    code: 'outside widths for tracks',
    roles: ['track', 'tip line', 'tilt angle'],
    sentence: 'widths over the tires’ outer faces instead of from tire center to tire center, front and rear',
    corrections: (s) => benches(narrowerTracks(s)),
  },
  {
    code: 'inside width for track',
    roles: ['track'],
    sentence: 'a width between the tires’ inner faces instead of from tire center to tire center',
    corrections: ({ bench, value }) => {
      const tread = bench.dimensions.treadWidth;
      return tread
        ? [to(value + tread.value, Math.hypot(tread.u, TREAD.u))]
        : [between(value + TREAD.low, value + TREAD.high)];
    },
  },
  {
    code: 'diameter for radius',
    roles: ['radius'],
    sentence: 'a tire’s diameter instead of its radius',
    corrections: ({ value }) => [to(value / 2)],
  },
  ...UNIT_SLIPS.map(({ code, kind, factor, read, entered }): SlipRow => ({
    code,
    roles: 'all',
    sentence: `a number read in ${read} and entered as ${entered}`,
    corrections: ({ value, role, without }) =>
      without.number.kind === kind && role !== 'line' && role !== 'other' ? [to(value * factor)] : [],
  })),
  {
    code: 'left for right',
    roles: ['left', 'hang angle'],
    sentence: 'left and right taken for each other',
    corrections: ({ value, reading }) =>
      reading?.kind === 'hang' && (reading.view === 'side' || reading.view === 'top') && isAngle(reading)
        ? []
        : [to(-value)],
  },
  {
    code: 'sides exchanged',
    roles: ['load', 'tilt angle'],
    sentence: 'left and right taken for each other',
    corrections: (s) => benches(otherSide(s)),
  },
  {
    code: 'nose up for nose down',
    roles: ['hang angle'],
    sentence: 'nose up and nose down taken for each other',
    corrections: ({ value, reading }) =>
      reading?.kind === 'hang' && (reading.view === 'side' || reading.view === 'top') ? [to(-value)] : [],
  },
  {
    code: 'pack left out',
    roles: ['load'],
    sentence: 'a weighing without the battery pack',
    corrections: ({ value, reading }) => [
      between(value + (reading?.kind === 'total mass' ? PACK.whole : PACK.part), value + PACK.most),
    ],
  },
  {
    code: 'suspension not locked',
    roles: ['tilt angle'],
    sentence: 'a tip angle read with the suspension not locked',
    corrections: ({ value }) => [between(value + LIVE_TILT.least, value + LIVE_TILT.most)],
  },
  {
    code: 'suspension not locked in the lift',
    roles: ['load'],
    sentence: 'an axle lifted with the suspension not locked',
    corrections: liveLift,
  },
  {
    code: 'first wheel for tipping',
    roles: ['tilt angle'],
    sentence: 'the first wheel lifting taken for the truck tipping',
    corrections: ({ value, reading }) =>
      reading?.kind === 'tilt' && (reading.toward === 'left' || reading.toward === 'right')
        ? [between(value, value + FIRST_WHEEL)]
        : [],
  },
  {
    code: 'mirrored picture',
    roles: ['line'],
    sentence: 'a mirrored picture: front and rear are exchanged in it',
    corrections: (s) => benches(mirroredLine(s)),
  },
  {
    code: 'hook of another hang',
    roles: ['hang angle', 'ahead', 'left', 'height', 'line'],
    sentence: 'a hang from another hook than the one named',
    corrections: (s) => otherHooks(s).map(({ bench, hook }) => ({ by: 'bench', bench, hook })),
  },
  {
    code: 'front and rear exchanged',
    roles: ['load', 'track', 'radius', 'tilt angle', 'droop', 'other'],
    sentence: 'front and rear taken for each other',
    corrections: (s) => benches(exchanged(s)),
  },
  {
    code: 'scale under the other axle',
    roles: ['load', 'rise', 'lift angle'],
    sentence: 'the scale under the other axle than the one named, or the other axle raised',
    corrections: (s) => benches(wrongAxle(s)),
  },
];

/** What the load would read on live springs, by the estimate of all others: the CG's height above the hubs overstated. */
function liveLift({ value, reading, without, id }: Suspected): readonly Correction[] {
  if (reading?.kind !== 'axle lift' || !id.endsWith('.load')) return [];
  const { model, unknowns, number } = without;
  const radius = model.unknowns.findIndex(({ name }) => name === 'rearTireRadius');
  const high = (unknowns[model.at.z] ?? NaN) - (unknowns[radius] ?? 0);
  const load = (part: number): number => {
    const lifted = unknowns.with(model.at.z, (unknowns[model.at.z] ?? NaN) + part * high);
    return model.observations[number.observation]?.predict(lifted)[0] ?? NaN;
  };
  const more = (part: number) => load(part) - load(0);
  return [between(value - more(LIVE_LIFT.least), value - more(LIVE_LIFT.most))];
}
