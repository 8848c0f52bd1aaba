import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { offerFor, type Offer } from '../../../src/calculators/photographs/offeredMarks';
import { emptyBodyMark, emptyPicture, emptyState } from '../../../src/sheet/empty';
import type { BuildState, Picture } from '../../../src/sheet/schema';
import { tolerance } from '../../tolerances';

type Spot = readonly [role: string, x: number, y: number];

const picture = (
  id: string,
  kind: Picture['kind'],
  spots: readonly Spot[],
  size: readonly [number, number] = [1600, 1200],
): Picture => ({
  ...emptyPicture(kind, ...size),
  id,
  marks: spots.map(([role, x, y]) => ({ role, x, y, plusMinus: '', counted: true, source: 'hand' })),
});

const state = (...pictures: readonly Picture[]): BuildState => ({
  ...emptyState(),
  bodyMarks: ['A', 'B', 'C', 'D'].map((key) => emptyBodyMark(key)),
  pictures: [...pictures],
});

const BODY: readonly Spot[] = [
  ['mark A', 500, 400],
  ['mark B', 1100, 420],
  ['mark C', 900, 250],
  ['mark D', 640, 500],
];

/** The places of BODY after a turn by `angle` about (800, 600) and a shift, worked out point by point. */
const turned = (angle: number, scale: number): readonly Spot[] =>
  BODY.map(([role, x, y]) => {
    const [dx, dy] = [scale * (x - 800), scale * (y - 600)];
    return [
      role,
      800 + dx * Math.cos(angle) - dy * Math.sin(angle),
      600 + dx * Math.sin(angle) + dy * Math.cos(angle),
    ];
  });

const offered = (offer: Offer | null): Record<string, { x: number; y: number }> =>
  Object.fromEntries((offer?.marks ?? []).map(({ role, place }) => [role, place]));

describe('marks offered from another picture', () => {
  test('with two placed, the others follow by turn, scale and shift', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }),
        fc.double({ min: 0.4, max: 1, noNaN: true }),
        (angle, scale) => {
          const there = turned(angle, scale);
          const bench = state(picture('s', 'standing', BODY), picture('h', 'hanging', there.slice(0, 2)));
          const hang = bench.pictures[1];
          if (!hang) throw new Error('no hang');
          const offer = offerFor(bench, hang, []);
          expect(offer?.by).toBe('similarity');
          const places = offered(offer);
          for (const [role, x, y] of there.slice(2)) {
            expect(Math.abs((places[role]?.x ?? NaN) - x)).toBeLessThan(tolerance('offered mark: place'));
            expect(Math.abs((places[role]?.y ?? NaN) - y)).toBeLessThan(tolerance('offered mark: place'));
          }
          expect(Object.keys(places)).toEqual(['mark C', 'mark D']);
        },
      ),
    );
  });

  test('before two are placed, they lie as in the other picture, at this one’s size', () => {
    const bench = state(picture('s', 'standing', BODY), picture('h', 'hanging', [], [600, 800]));
    const [, hang] = bench.pictures;
    const offer = hang ? offerFor(bench, hang, []) : null;
    expect(offer?.by).toBe('layout');
    // 600 pixels of width take 1600: 3 / 8; the height left over is shared above and below.
    expect(offered(offer)['mark A']).toEqual({ x: 187.5, y: 175 + 150 });
  });

  test('come from the picture marked last, of the same view alone', () => {
    const rear = { ...picture('r', 'standing', BODY), view: 'rear' as const };
    const bench = state(
      picture('s', 'standing', BODY),
      picture('h1', 'hanging', BODY.slice(0, 3)),
      rear,
      picture('h2', 'hanging', []),
    );
    const last = bench.pictures.at(-1);
    if (!last) throw new Error('no picture');
    expect(offerFor(bench, last, [])?.from.id).toBe('h1');
    expect(offerFor(bench, last, ['r', 's', 'h1'])?.from.id).toBe('s');
    expect(offerFor(bench, { ...last, view: 'front' }, ['r', 's'])).toBeNull();
  });

  test('are never places off the picture, marks set aside, or ends of a string', () => {
    const from = picture('h1', 'hanging', [...BODY, ['string upper', 800, 5], ['string lower', 800, 200]]);
    const aside = from.marks.find(({ role }) => role === 'mark D');
    if (aside) aside.counted = false;
    // Turned upside down and far to the left: C falls off the picture.
    const bench = state(
      from,
      picture('h2', 'hanging', [
        ['mark A', 300, 300],
        ['mark B', 300, 1150],
      ]),
    );
    const [, hang] = bench.pictures;
    const places = offered(hang ? offerFor(bench, hang, []) : null);
    expect(Object.keys(places)).toEqual(['mark C']);
    const nothingLeft = state(from, picture('h2', 'hanging', BODY));
    const [, full] = nothingLeft.pictures;
    expect(full && offerFor(nothingLeft, full, [])).toBeNull();
  });

  test('are none from two marks at one place, but the layout', () => {
    const bench = state(
      picture('s', 'standing', BODY),
      picture('h', 'hanging', [
        ['mark A', 300, 300],
        ['mark B', 302, 300],
      ]),
    );
    const [, hang] = bench.pictures;
    expect(hang && offerFor(bench, hang, [])?.by).toBe('layout');
  });
});
