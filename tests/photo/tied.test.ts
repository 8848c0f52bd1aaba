import { describe, expect, it } from 'vitest';
import type { HangingPicture, MarkPlace, MarkedPoint, StandingPicture } from '../../src/photo/fit/givens';
import { tied } from '../../src/photo/tied';
import type { View } from '../../src/sheet/schema';

const POINT: MarkedPoint = { x: 1, y: 1, u: 1 };
const points = (keys: string) => new Map([...keys].map((key) => [key, POINT] as const));

interface Shown {
  readonly marks?: string;
  readonly hubs?: boolean;
  readonly feet?: boolean;
}
const standing = (
  id: string,
  view: View,
  { marks = '', hubs = false, feet = false }: Shown,
): StandingPicture => ({
  id,
  view,
  width: 800,
  height: 600,
  distance: { value: 1.5, u: 0.5 },
  oblique: 0.05,
  bodyMarks: points(marks),
  ...(hubs ? { frontHub: POINT, rearHub: POINT } : {}),
  ...(feet
    ? {
        tires: new Map([
          ['ground left', POINT],
          ['ground right', POINT],
        ]),
      }
    : {}),
  ground: [],
  hooks: new Map(),
});
const hang = (
  id: string,
  view: View,
  shown: Shown,
  suspension: HangingPicture['suspension'] = 'locked',
): HangingPicture => ({
  ...standing(id, view, shown),
  hook: null,
  suspension,
  twist: 0.05,
  string: [POINT, POINT],
});
/** Depth by ruler, nothing else. */
const deep = (keys: string, u = 0.002): ReadonlyMap<string, MarkPlace> =>
  new Map([...keys].map((key) => [key, { left: { value: 0.09, u } }] as const));
const ruled = (keys: string): ReadonlyMap<string, MarkPlace> =>
  new Map(
    [...keys].map((key) => {
      const place = { value: 0.1, u: 0.002 };
      return [key, { left: place, ahead: place, height: place }] as const;
    }),
  );

describe('pictures are tied to the truck', () => {
  it('by hubs or feet, and by marks of pictures that are', () => {
    const pictures = [
      hang('second', 'right', { marks: 'CD' }),
      hang('first', 'right', { marks: 'ABCD' }),
      standing('side', 'right', { marks: 'AB', hubs: true }),
      standing('tail', 'rear', { marks: 'EF', feet: true }),
      hang('tail hang', 'rear', { marks: 'EF' }),
    ];
    expect([...tied(deep('ABCDEF'), pictures)].toSorted()).toEqual(pictures.map(({ id }) => id).toSorted());
  });

  it('by hubs of a hang only where its suspension is locked', () => {
    for (const [suspension, count] of [
      ['locked', 1],
      ['free', 0],
    ] as const)
      expect(tied(new Map(), [hang('hang', 'left', { hubs: true }, suspension)]).size).toBe(count);
  });

  it('by marks whose places a ruler tells', () => {
    expect(tied(ruled('AB'), [hang('hang', 'right', { marks: 'AB' })]).size).toBe(1);
    expect(tied(ruled('A'), [hang('hang', 'right', { marks: 'AB' })]).size).toBe(0);
  });

  it('not by two hangs that share marks with each other alone', () => {
    const pictures = [
      standing('side', 'right', { marks: 'AB', hubs: true }),
      hang('one', 'rear', { marks: 'EF' }),
      hang('other', 'rear', { marks: 'EF' }),
    ];
    expect([...tied(deep('ABEF'), pictures)]).toEqual(['side']);
  });

  it('not from a side by what is known from the rear alone: nobody told how far ahead that lies', () => {
    const tail = standing('tail', 'rear', { marks: 'AB', feet: true });
    expect([...tied(deep('AB'), [tail, hang('hang', 'right', { marks: 'AB' })])]).toEqual(['tail']);
    // From the rear, a side picture and a known depth tell both.
    const side = standing('side', 'right', { marks: 'AB', hubs: true });
    const rear = hang('hang', 'rear', { marks: 'AB' });
    expect(tied(deep('AB'), [side, rear]).size).toBe(2);
    expect(tied(deep('AB', 0.1), [side, rear]).size).toBe(1);
  });
});
