import { describe, expect, it } from 'vitest';
import { onPictures, pictureScale } from '../../src/answer/onPictures';
import { lengthIn, meters } from '../../src/physics';
import type { BuildState } from '../../src/sheet/schema';
import { tolerance } from '../tolerances';
import { CENTROID, pixelOf, plateState, SHOTS } from './plateState';

/** Pictures of a plate of known centroid, as the sheet keeps them. */

const crossed = (state: BuildState) => {
  const found = onPictures(state);
  if (!found?.ok) throw new Error(found?.message ?? 'no hanging picture');
  return found.value.pictures;
};

describe('the point on the pictures', () => {
  it('is the plate’s centroid, with nothing but two hangs and their marks', () => {
    const pictures = crossed(plateState());
    for (const shot of SHOTS) {
      const truth = pixelOf(shot, CENTROID);
      const place = pictures.find(({ pictureId }) => pictureId === shot.id)?.place;
      expect(Math.hypot((place?.x ?? NaN) - truth.x, (place?.y ?? NaN) - truth.y)).toBeLessThan(
        tolerance('on pictures: rounded marks'),
      );
    }
  });

  it('is the same object for the same state', () => {
    const state = plateState();
    expect(onPictures(state)).toBe(onPictures(state));
  });

  it('is surer of a flat object than of a truck', () => {
    const [object] = crossed(plateState());
    const [truck] = crossed(plateState({ body: 'truck' }));
    expect(object?.u).toBeLessThan(truck?.u ?? 0);
  });

  it('takes no picture set aside, no standing one, and none of another side', () => {
    const state = plateState();
    const [first, second] = state.pictures;
    if (!first || !second) throw new Error('two pictures');
    const reason = (pictures: BuildState['pictures']) => {
      const found = onPictures({ ...state, pictures });
      return found && !found.ok ? found.reason : found;
    };
    expect(reason([])).toBeNull();
    expect(reason([{ ...first, kind: 'standing' }])).toBeNull();
    expect(reason([first, { ...second, counted: false }])).toBe('too few hangs');
    const left = {
      ...state,
      body: 'truck' as const,
      pictures: [first, { ...second, view: 'left' as const }],
    };
    expect(onPictures(left)).toMatchObject({ ok: false, reason: 'too few hangs' });
    const noString = second.marks.filter(({ role }) => role !== 'string upper');
    expect(reason([first, { ...second, marks: noString }])).toBe('too few hangs');
    const aside = second.marks.map((mark) => (mark.role === 'mark A' ? { ...mark, counted: false } : mark));
    const [one] = crossed({ ...state, pictures: [first, { ...second, marks: aside }] });
    expect(one?.marks[0]?.keys).toEqual(['B', 'C']);
  });
});

describe('the scale of a hanging picture', () => {
  it('is that of two points of known distance', () => {
    const state = plateState({ scaled: true });
    const [first, second] = state.pictures;
    if (!first || !second) throw new Error('two pictures');
    const scale = pictureScale(state, first);
    expect(scale?.from).toBe('two points');
    expect(Math.abs(1 / lengthIn(scale?.value ?? meters(NaN), 'mm') - SHOTS[0].perMm)).toBeLessThan(
      tolerance('on pictures: scale'),
    );
    expect(pictureScale(state, second)).toBeNull();
  });

  it('is that of the hubs and the wheelbase of a truck', () => {
    const state = plateState({ body: 'truck' });
    const [first] = state.pictures;
    if (!first) throw new Error('a picture');
    const hub = (role: 'rear hub' | 'front hub', x: number) =>
      ({ role, x, y: 700, plusMinus: '', counted: true, source: 'hand' }) as const;
    const marked = { ...first, marks: [...first.marks, hub('rear hub', 100), hub('front hub', 726)] };
    expect(pictureScale(state, marked)).toBeNull();
    const wheelbase = { ...state.dimensions.wheelbase, text: '313' };
    const measured = { ...state, dimensions: { ...state.dimensions, wheelbase } };
    const scale = pictureScale(measured, marked);
    expect(scale?.from).toBe('wheelbase');
    // 313 mm over 626 px.
    expect(Math.abs(lengthIn(scale?.value ?? meters(NaN), 'mm') - 0.5)).toBeLessThan(
      tolerance('on pictures: exact scale'),
    );
  });
});
