import { degrees } from '../../src/physics';
import type { TruckBench } from '../../src/physics';
import type { BenchNumber } from './numbers';

/** A slip of the bench: what is written down instead of the number. */
export interface Slip {
  readonly name: string;
  readonly reads: number;
  /** A wrong unit: the number is off by a factor and fits no truck. */
  readonly gross: boolean;
}

/** Kilograms in an ounce and in a pound; meters in an inch (NIST SP 811, exact or rounded to seven digits). */
const OUNCE = 0.02834952;
const POUND = 0.4535924;
const INCH = 0.0254;
/** Mass of a battery pack, kg; how far a tire reaches beyond its center on both sides, m (common practice). */
const PACK = 0.25;
const TIRE = 0.045;
/** How much sooner than it tips a truck lifts its first wheel, and how far springs give way (common practice). */
const FIRST_WHEEL = 3;
const LIVE_SUSPENSION = 2.5;

/** The slips that fit a number, with what they make of it. */
export const slipsOf = (bench: TruckBench, number: BenchNumber): Slip[] => {
  const { id, reading, sort, value } = number;
  const kind = bench.readings.find((each) => each.id === reading)?.kind;
  const slips: Slip[] = [];
  const slip = (name: string, reads: number, gross = false): void => {
    slips.push({ name, reads, gross });
  };
  if (sort === 'mass' && reading !== null) {
    slip('ounces for grams', value * (OUNCE / 0.001), true);
    slip('grams for ounces', value * (0.001 / OUNCE), true);
    slip('pounds for kilograms', value * POUND, true);
    if (kind === 'total mass') slip('pack left out', value - PACK);
  }
  if (sort === 'length' && Math.abs(value) > 0.02 && id !== 'lateral') {
    slip('inches for millimeters', value * (INCH / 0.001), true);
    if (id === 'frontTrack' || id === 'rearTrack') slip('outside width for track', value + TIRE);
    if (id === 'frontTireRadius' || id === 'rearTireRadius') slip('diameter for radius', value * 2);
    const hub = bench.dimensions.rearTireRadius?.value;
    if (hub !== undefined && (id.endsWith('.z') || id.endsWith('.height')))
      slip('axle for ground', value - hub);
    if (id.endsWith('.y') || id.endsWith('.left')) slip('left for right', -value);
  }
  if (sort === 'angle' && kind === 'tilt') {
    slip('first wheel lifting taken for tipping', value - degrees(FIRST_WHEEL));
    slip('suspension not locked', value - degrees(LIVE_SUSPENSION));
  }
  if (sort === 'angle' && kind === 'hang') slip('mirrored picture', -value);
  if (sort === 'angle' && kind === 'axle lift') slip('sine for tangent', Math.atan(Math.sin(value)));
  return slips;
};
