import type { ReadingKind } from './edits';

/** A kind of reading as the chooser offers it. */
export interface KindWords {
  readonly kind: ReadingKind;
  readonly name: string;
  /** What it tells, in one sentence. */
  readonly tells: string;
  /** What the bench work is. */
  readonly work: string;
  /** Bench work for one reading, tools at hand; an estimate. */
  readonly minutes: number;
}

/** The kinds a reader can type, quickest first. Hangs in photographs are added in chapter 3. */
export const KINDS: readonly KindWords[] = [
  {
    kind: 'total mass',
    name: 'Total mass',
    tells: 'The mass; no place, but lifts and axle shares lean on it.',
    work: 'One scale, truck ready to drive.',
    minutes: 1,
  },
  {
    kind: 'axle scales',
    name: 'Axle scales',
    tells: 'The place fore and aft; never the height.',
    work: 'Each axle on the scale in turn, the other as high beside it, brakes released.',
    minutes: 4,
  },
  {
    kind: 'wheel scales',
    name: 'Wheel scales',
    tells: 'The place fore and aft and to the left; never the height.',
    work: 'A scale under each wheel, all four of one height, brakes released.',
    minutes: 6,
  },
  {
    kind: 'balance on an edge',
    name: 'Balance on an edge',
    tells: 'One place, along or across, with no instrument but a ruler.',
    work: 'The chassis level over a straight edge until it just does not tip.',
    minutes: 3,
  },
  {
    kind: 'tilt board',
    name: 'Tilt board',
    tells:
      'The height and, from both sides, the lateral place: the slope at which the locked truck goes over.',
    work: 'Suspension locked, a low lip at the downhill tires, the board raised slowly, a level on it.',
    minutes: 6,
  },
  {
    kind: 'axle lift',
    name: 'Axle lift',
    tells: 'The height, from how load moves to the low axle; steep lifts tell it best.',
    work: 'Suspension locked, one axle raised 20° or more, a scale under one axle.',
    minutes: 8,
  },
  {
    kind: 'hang line',
    name: 'Hang by ruler',
    tells: 'A line through the center of gravity; it crosses other lines at the height.',
    work: 'Hung from a hook by a string; a second point of the string’s line, or the truck’s slope, read off.',
    minutes: 10,
  },
];
